#include "services/domain/check.h"

#include <cstdio>
#include <cstdlib>

namespace rowproof {

void FailCheck(const char* condition, const char* file, int line) {
  std::fprintf(stderr, "%s:%d: check failed: %s\n", file, line, condition);
  std::abort();
}

}  // namespace rowproof
