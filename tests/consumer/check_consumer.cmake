# Installs a build to a prefix of its own, then configures, builds and runs a stranger's project against it.
# usage: cmake -DBUILD=<build folder> -DSOURCE=<this folder> -P check_consumer.cmake
cmake_minimum_required(VERSION 3.25)
set(place ${BUILD}/consumer)
set(prefix ${place}/prefix)
get_filename_component(root ${SOURCE}/../.. ABSOLUTE)

function(run)
  execute_process(COMMAND ${ARGV} RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT result EQUAL 0)
    list(JOIN ARGV " " command)
    message(FATAL_ERROR "${command}\nended with ${result}:\n${output}")
  endif()
  set(output "${output}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE ${place})
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${prefix})

# An installed package that remembers where it was built works only there.
file(GLOB_RECURSE package_files ${prefix}/*.cmake)
foreach(file IN LISTS package_files)
  file(READ ${file} text)
  foreach(trace IN ITEMS ${BUILD} ${root}/ "-Werror" "-Wall" "cmake_pch" "heapwright-build")
    string(FIND "${text}" "${trace}" at)
    if(NOT at EQUAL -1)
      message(FATAL_ERROR "${file} contains ${trace}")
    endif()
  endforeach()
endforeach()
if(NOT package_files)
  message(FATAL_ERROR "no package was installed in ${prefix}")
endif()

file(GLOB schemas ${prefix}/share/heapwright/schema/*.schema.json)
if(NOT schemas)
  message(FATAL_ERROR "no schema was installed in ${prefix}/share/heapwright/schema")
endif()

run(${CMAKE_COMMAND} -S ${SOURCE} -B ${place}/build -DCMAKE_PREFIX_PATH=${prefix})
run(${CMAKE_COMMAND} --build ${place}/build)
run(${place}/build/stranger)
message(STATUS "stranger: ${output}")

run(${CMAKE_COMMAND} -S ${SOURCE}/subdirectory -B ${place}/subdirectory -DHEAPWRIGHT=${root})
