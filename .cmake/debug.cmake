# Unoptimised build with assertions and full debug information.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
