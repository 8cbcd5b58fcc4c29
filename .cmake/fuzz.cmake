# clang 14 with libFuzzer, address and undefined-behaviour sanitizers: builds the fuzz targets only.
set(CMAKE_C_COMPILER clang-14 CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG
    "-O1 -g1 -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined"
    CACHE STRING "")
set(ROWPROOF_JOINED ON CACHE BOOL "")
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")
set(ROWPROOF_FUZZ ON CACHE BOOL "")
set(ROWPROOF_WITHOUT_GRPC ON CACHE BOOL "")
