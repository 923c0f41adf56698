# `cmake --install` puts everything in place; `cpack` makes a Debian package.

include(GNUInstallDirs)
install(TARGETS sheaf DESTINATION ${CMAKE_INSTALL_BINDIR})
install(FILES ${SHEAF_WORD_LIST} DESTINATION ${CMAKE_INSTALL_DATADIR}/sheaf)
install(DIRECTORY fonts layouts schemas
  DESTINATION ${CMAKE_INSTALL_DATADIR}/sheaf)
# The examples name their schemas as ../schemas.
install(DIRECTORY lessons schemas
  DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples)
install(FILES README.md CHANGELOG.md LICENSES.md
  DESTINATION ${CMAKE_INSTALL_DOCDIR})
# The guide as pages for a browser; `make deb` and `make install` make it first.
install(DIRECTORY ${CMAKE_BINARY_DIR}/guide DESTINATION ${CMAKE_INSTALL_DOCDIR}
  OPTIONAL)
# Where Debian looks for the notices of all that is in a package.
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright)
install(FILES ${SHEAF_HELP}/sheaf.1
  DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${SHEAF_HELP}/sheaf.bash RENAME sheaf
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${SHEAF_HELP}/_sheaf
  DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${SHEAF_HELP}/sheaf.fish
  DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)

# The word list is compiled from these; their notices go with it.
foreach(package festlex-cmu scowl wordnet-base)
  set(notice /usr/share/doc/${package}/copyright)
  if(EXISTS ${notice})
    install(FILES ${notice} DESTINATION ${CMAKE_INSTALL_DOCDIR}/notices
      RENAME ${package})
  endif()
endforeach()

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
# No address: dpkg takes a name alone, and there is no mailbox to give.
set(CPACK_PACKAGE_CONTACT "Sheaf team")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY
  "a week of spelling sheets from a short lesson file")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION education)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_STRIP_FILES ON)
include(CPack)
