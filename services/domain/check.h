// ROWPROOF_CHECK(condition): a bug, not a user's fault, ends the process with file and line.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHECK_H_
#define ROWPROOF_SERVICES_DOMAIN_CHECK_H_

namespace rowproof {

[[noreturn]] void FailCheck(const char* condition, const char* file, int line);

}  // namespace rowproof

#define ROWPROOF_CHECK(condition) \
  ((condition) ? static_cast<void>(0) : ::rowproof::FailCheck(#condition, __FILE__, __LINE__))

#endif  // ROWPROOF_SERVICES_DOMAIN_CHECK_H_
