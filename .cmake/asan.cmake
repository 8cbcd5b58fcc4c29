# Address and undefined-behaviour sanitizers over everything, by clang 14: g++ 12 takes twice as long
# over them, and a second compiler sees other faults.
set(CMAKE_C_COMPILER clang-14 CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG
    "-O0 -g1 -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer"
    CACHE STRING "")
set(ROWPROOF_JOINED ON CACHE BOOL "")
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")
set(ROWPROOF_SANITIZED ON CACHE BOOL "")
# deploy/analyse says which part of our lines the tests run.
set(ROWPROOF_COVERAGE ON CACHE BOOL "")
