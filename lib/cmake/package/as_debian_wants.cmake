# Between installing and packing: the package's paths in man pages, these and changelogs compressed, a library without debug symbols,
# completions where Debian's zsh looks for them, and folders that all may read whatever the umask.
if(NOT CPACK_GENERATOR STREQUAL "DEB")
  return()
endif()
file(GLOB pages ${CPACK_TEMPORARY_DIRECTORY}/program/usr/share/man/man1/*.1)
foreach(page IN LISTS pages)
  file(READ ${page} text)
  string(REPLACE "${CPACK_HEAPWRIGHT_PREFIX}/share/" "/usr/share/" text "${text}")
  file(WRITE ${page} "${text}")
endforeach()
file(GLOB changelogs ${CPACK_TEMPORARY_DIRECTORY}/*/usr/share/doc/*/changelog)
execute_process(COMMAND gzip -9n ${pages} ${changelogs} COMMAND_ERROR_IS_FATAL ANY)
file(GLOB_RECURSE library ${CPACK_TEMPORARY_DIRECTORY}/library/usr/lib/libheapwright.a)
execute_process(COMMAND ${CPACK_HEAPWRIGHT_STRIP} --strip-debug --remove-section=.comment --enable-deterministic-archives ${library} COMMAND_ERROR_IS_FATAL ANY)
file(RENAME ${CPACK_TEMPORARY_DIRECTORY}/program/usr/share/zsh/site-functions ${CPACK_TEMPORARY_DIRECTORY}/program/usr/share/zsh/vendor-completions)
file(CHMOD_RECURSE ${CPACK_TEMPORARY_DIRECTORY}/program/usr ${CPACK_TEMPORARY_DIRECTORY}/library/usr
  DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
