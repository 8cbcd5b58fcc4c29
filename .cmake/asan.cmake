# Address and undefined-behaviour sanitizers over everything. -O0: g++ 12 takes twice as long with -O1 -g.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG
    "-O0 -g1 -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer"
    CACHE STRING "")
set(ROWPROOF_SANITIZED ON CACHE BOOL "")
