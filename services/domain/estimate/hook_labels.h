// US labels of crochet hooks, and their sizes in millimetres. Source: Craft Yarn Council, Hooks and
// Needles (millimetres are the size, the label is only a label; makers' letters differ). 16 mm and
// 19 mm are partly from memory. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_HOOK_LABELS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_HOOK_LABELS_H_

#include <optional>
#include <string>

namespace rowproof::estimate {

// "I-9" for 5.5 mm; empty if no hook of that size has a label.
std::string HookUsLabel(double mm);

// Millimetres of a label that is a number; absent if there is no hook of that number. 10 is read
// as J-10; N/P-15, which is 10 mm, is 15.
std::optional<double> HookMmOfUsNumber(double number);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_HOOK_LABELS_H_
