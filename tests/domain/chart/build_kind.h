// Whether exhaustive tests run in full: in optimised builds without a sanitizer. Other builds take
// a part, always the same one.
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_BUILD_KIND_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_BUILD_KIND_H_

namespace rowproof::chart {

#if defined(__OPTIMIZE__) && !defined(ROWPROOF_SANITIZED)
inline constexpr bool kExhaustive = true;
#else
inline constexpr bool kExhaustive = false;
#endif

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_BUILD_KIND_H_
