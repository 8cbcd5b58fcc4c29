# Optimised build of the server, the client, the end-to-end tests and the benchmarks.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(ROWPROOF_JOINED ON CACHE BOOL "")
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -g1" CACHE STRING "")
