# A package is of the day of its changelog, so that it comes out the same whenever it is made.
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH} AND CPACK_GENERATOR STREQUAL "DEB")
  execute_process(COMMAND dpkg-parsechangelog -l ${CPACK_HEAPWRIGHT_CHANGELOG} -S Timestamp OUTPUT_VARIABLE seconds OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
  set(ENV{SOURCE_DATE_EPOCH} ${seconds})
endif()
