# The program that compiles the word list, and the word list itself.
set(SHEAF_DICTIONARY /usr/share/festival/dicts/cmu/cmudict-0.4.out
  CACHE FILEPATH "Festival's CMU dictionary (package festlex-cmu)")
set(SHEAF_SCOWL /usr/share/dict/scowl
  CACHE PATH "Folder of the SCOWL word lists (package scowl)")
set(SHEAF_WORDNET /usr/share/wordnet
  CACHE PATH "Folder of WordNet's database (package wordnet-base)")
foreach(source ${SHEAF_DICTIONARY} ${SHEAF_SCOWL}/english-words.10
    ${SHEAF_WORDNET}/data.noun)
  if(NOT EXISTS ${source})
    message(FATAL_ERROR "The word list is compiled from ${source}, which is "
      "not on this machine. `make deps` installs it.")
  endif()
endforeach()
# Another build may be told of the list that the first one made.
set(SHEAF_WORD_LIST_MADE "" CACHE FILEPATH "the word list, compiled before")
sheaf_stage(lexicon FAST)
add_executable(sheaf-lexicon src/lexicon/main.cpp)
target_link_libraries(sheaf-lexicon PRIVATE sheaf_lexicon sheaf_hardening)
set(SHEAF_WORD_LIST ${PROJECT_BINARY_DIR}/share/sheaf/phonics.bin)
file(GLOB SHEAF_DATA CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/data/*.tsv
  ${PROJECT_SOURCE_DIR}/src/data/*.txt
  ${PROJECT_SOURCE_DIR}/src/data/sentences/*.txt
  ${PROJECT_SOURCE_DIR}/src/data/passages/*.txt)
if(SHEAF_WORD_LIST_MADE)
  add_custom_command(OUTPUT ${SHEAF_WORD_LIST}
    COMMAND ${CMAKE_COMMAND} -E copy ${SHEAF_WORD_LIST_MADE} ${SHEAF_WORD_LIST}
    DEPENDS ${SHEAF_WORD_LIST_MADE} VERBATIM)
else()
  add_custom_command(OUTPUT ${SHEAF_WORD_LIST}
    COMMAND ${CMAKE_COMMAND} -E make_directory
      ${PROJECT_BINARY_DIR}/share/sheaf
    COMMAND sheaf-lexicon --dictionary ${SHEAF_DICTIONARY}
      --scowl ${SHEAF_SCOWL} --wordnet ${SHEAF_WORDNET}
      --data ${PROJECT_SOURCE_DIR}/src/data --out ${SHEAF_WORD_LIST}
    DEPENDS sheaf-lexicon ${SHEAF_DATA} ${SHEAF_DICTIONARY}
    COMMENT "Compiling the word list" VERBATIM)
endif()
add_custom_target(sheaf_word_list ALL DEPENDS ${SHEAF_WORD_LIST})
