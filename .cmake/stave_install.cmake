# What `cmake --install` puts in place: the command, its notation, the licences
# it must carry (it holds Roboto and header-only libraries), the editors' files.
include(GNUInstallDirs)

if(TARGET stave)
  install(TARGETS stave RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}")
endif()
install(FILES
  "${CMAKE_SOURCE_DIR}/LICENSE"
  "${CMAKE_SOURCE_DIR}/compiler/driver/THIRD_PARTY.md"
  "${CMAKE_SOURCE_DIR}/grammar/ERRORS.md"
  "${CMAKE_SOURCE_DIR}/grammar/NOTATION.md"
  DESTINATION "${CMAKE_INSTALL_DOCDIR}")
install(DIRECTORY "${CMAKE_SOURCE_DIR}/editors/vim/"
  DESTINATION "${CMAKE_INSTALL_DATADIR}/vim/vimfiles" PATTERN README.md EXCLUDE)
install(DIRECTORY "${CMAKE_SOURCE_DIR}/editors/vscode"
  DESTINATION "${CMAKE_INSTALL_DATADIR}/${PROJECT_NAME}")
