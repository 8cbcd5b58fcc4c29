// US hook labels that are numbers, and the millimetres that they stand for.
// Source: Craft Yarn Council, Hooks and Needles (millimetres are the size, the label is only a
// label; makers' letters differ). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CALLS_HOOK_LABELS_H_
#define ROWPROOF_SERVICES_DOMAIN_CALLS_HOOK_LABELS_H_

#include <optional>

namespace rowproof::calls {

// Millimetres of the US number; absent where there is no hook of that number. 10 is read as J-10;
// N/P-15, which is 10 mm, is 15.
std::optional<double> HookMmOfUsNumber(double number);

}  // namespace rowproof::calls

#endif  // ROWPROOF_SERVICES_DOMAIN_CALLS_HOOK_LABELS_H_
