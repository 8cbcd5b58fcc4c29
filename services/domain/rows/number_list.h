// Numbers that differ by size, as a pattern lists them. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_NUMBER_LIST_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_NUMBER_LIST_H_

#include <string>
#include <vector>

namespace rowproof::rows {

// "12" if all are equal, else "12 (16, 20)"; kNotWorked is "-". Not empty.
std::string List(const std::vector<int>& numbers);
// The same of texts.
std::string List(const std::vector<std::string>& texts);

// "1 st", "53 (69, 85) sts": the list and its noun.
std::string Counted(const std::vector<int>& numbers, const char* one, const char* several);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_NUMBER_LIST_H_
