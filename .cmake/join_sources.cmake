# rowproof_join_sources(DIRECTORIES...): has the sources of all targets of these folders' CMakeLists.txt
# compiled in groups, see join_sources.py. Left alone are targets with UNITY_BUILD OFF, and sources with
# options or definitions of their own. No precompiled headers go with it: a compiler cache does not find
# again, in another folder, what was compiled with those of clang.
find_program(ROWPROOF_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH REQUIRED)

function(rowproof_join_sources)
  set(list)
  foreach(directory ${ARGN})
    get_property(targets DIRECTORY ${directory} PROPERTY BUILDSYSTEM_TARGETS)
    foreach(target ${targets})
      get_target_property(type ${target} TYPE)
      get_target_property(unity ${target} UNITY_BUILD)
      if(NOT type MATCHES "^(STATIC_LIBRARY|EXECUTABLE)$" OR unity STREQUAL "OFF")
        continue()
      endif()
      get_target_property(sources ${target} SOURCES)
      get_target_property(folder ${target} SOURCE_DIR)
      set(alone)
      foreach(source ${sources})
        get_filename_component(file ${source} ABSOLUTE BASE_DIR ${folder})
        get_source_file_property(options ${file} TARGET_DIRECTORY ${target} COMPILE_OPTIONS)
        get_source_file_property(definitions ${file} TARGET_DIRECTORY ${target} COMPILE_DEFINITIONS)
        if(options OR definitions)
          list(APPEND alone ${file})
        else()
          string(APPEND list "${target}|${file}\n")
        endif()
      endforeach()
      set_property(TARGET ${target} PROPERTY SOURCES ${alone})
    endforeach()
  endforeach()
  file(WRITE ${CMAKE_BINARY_DIR}/joined/sources "${list}")
  execute_process(
    COMMAND ${ROWPROOF_PYTHON} ${CMAKE_SOURCE_DIR}/.cmake/join_sources.py ${CMAKE_SOURCE_DIR}
      ${CMAKE_BINARY_DIR}/joined
    INPUT_FILE ${CMAKE_BINARY_DIR}/joined/sources OUTPUT_VARIABLE joined COMMAND_ERROR_IS_FATAL ANY)
  string(REGEX MATCHALL "[^\n]+" joined "${joined}")
  foreach(line ${joined})
    string(REGEX MATCH "^([^|]+)[|](.+)$" matched "${line}")
    set_property(TARGET ${CMAKE_MATCH_1} APPEND PROPERTY SOURCES ${CMAKE_MATCH_2})
  endforeach()
endfunction()
