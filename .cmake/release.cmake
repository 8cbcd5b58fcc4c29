# Optimised build of the server, the client, the end-to-end tests and the benchmarks.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
# Eight files at once: most of a file's time goes into the headers it reads.
set(CMAKE_UNITY_BUILD ON CACHE BOOL "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -g1" CACHE STRING "")
