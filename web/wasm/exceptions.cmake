# Where an exception clears nothing up on its way. Most calls can throw, if only
# for want of memory; what clears up behind each of them is 6 % of the module and,
# as a browser compiles it, a tenth of all the memory that its page takes. There it
# would clear up for nothing: what the depths throw, for memory that is lacking or
# a damaged part of Sheaf, ends the instance (see worker.ts), and its memory goes
# as a whole.
#
# These stages clear up all the same: they throw at what a teacher writes or puts
# there, and whoever catches it goes on.
set(SHEAF_CLEARS_UP files input)

sheaf_precompiled(sheaf_bare_headers ${SHEAF_COMMON_HEADERS})
if(SHEAF_PRECOMPILE)
  target_compile_options(sheaf_bare_headers PRIVATE -fignore-exceptions)
  target_link_libraries(sheaf_bare_headers PRIVATE sheaf_hardening)
endif()

# sheaf_leaves_exceptions_alone(STAGE), but for its files that catch any: there
# the option would have the compiler pass over that, too.
function(sheaf_leaves_exceptions_alone stage)
  get_target_property(sources sheaf_${stage} SOURCES)
  # Whether a file catches is found out again when one has changed.
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${sources})
  set(catching)
  foreach(source IN LISTS sources)
    file(STRINGS ${source} catches REGEX "catch \\(" LIMIT_COUNT 1)
    if(catches)
      list(APPEND catching ${source})
    endif()
  endforeach()
  if(catching)
    list(REMOVE_ITEM sources ${catching})
    set_target_properties(sheaf_${stage} PROPERTIES SOURCES "${sources}")
    add_library(sheaf_${stage}_catching OBJECT ${catching})
    get_target_property(libraries sheaf_${stage} LINK_LIBRARIES)
    target_link_libraries(sheaf_${stage}_catching PRIVATE ${libraries})
    target_compile_definitions(sheaf_${stage}_catching PRIVATE
      $<TARGET_PROPERTY:sheaf_${stage},COMPILE_DEFINITIONS>)
    sheaf_uses_precompiled(sheaf_${stage}_catching sheaf_common_headers)
    target_sources(sheaf_${stage} PRIVATE
      $<TARGET_OBJECTS:sheaf_${stage}_catching>)
  endif()
  target_compile_options(sheaf_${stage} PRIVATE -fignore-exceptions)
  sheaf_uses_precompiled(sheaf_${stage} sheaf_bare_headers)
endfunction()
