# Thread sanitizer, by clang 14, over what does not link gRPC (Debian's gRPC is not instrumented).
set(CMAKE_C_COMPILER clang-14 CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1 -fsanitize=thread" CACHE STRING "")
set(CMAKE_UNITY_BUILD ON CACHE BOOL "")
set(ROWPROOF_WITHOUT_GRPC ON CACHE BOOL "")
set(ROWPROOF_SANITIZED ON CACHE BOOL "")
