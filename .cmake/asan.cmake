# Address and undefined-behaviour sanitizers over everything, by clang 14: g++ 12 takes twice as long
# over them, and a second compiler sees other faults.
set(CMAKE_C_COMPILER clang-14 CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG
    "-O0 -g1 -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer"
    CACHE STRING "")
# Eight files at once: most of a file's time goes into the headers it reads.
set(CMAKE_UNITY_BUILD ON CACHE BOOL "")
set(ROWPROOF_SANITIZED ON CACHE BOOL "")
