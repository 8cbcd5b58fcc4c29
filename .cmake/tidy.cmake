# What clang-tidy reads: clang 14's view of the sources, several files at once, without the
# precompiled headers that would hide a missing include.
set(CMAKE_C_COMPILER clang-14 CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_UNITY_BUILD ON CACHE BOOL "")
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")
set(ROWPROOF_TESTS OFF CACHE BOOL "")
