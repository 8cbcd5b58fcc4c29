// Gathers the differences of fields; used by Compare only.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_FIELD_LIST_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_FIELD_LIST_H_

#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "services/domain/patterns/difference.h"
#include "services/quantities/printing.h"

namespace rowproof::patterns {

class FieldList {
 public:
  // Nothing is added if the two are equal. `words` makes the text of a value.
  template <typename T, typename Words>
  void Add(const std::string& field, const std::string& label, const T& was, const T& now,
           const Words& words) {
    if (was == now) return;
    Push(field, label, words(was), words(now));
  }
  template <typename T, typename Words>
  void Add(const std::string& field, const std::string& label, const std::optional<T>& was,
           const std::optional<T>& now, const Words& words) {
    if (was == now) return;
    Push(field, label, was.has_value() ? words(*was) : std::string(),
         now.has_value() ? words(*now) : std::string());
  }
  // Numbers: `words(value, digits)`; more digits are shown if the usual ones do not distinguish the
  // two.
  template <typename Words>
  void AddReal(const std::string& field, const std::string& label, const std::optional<double>& was,
               const std::optional<double>& now, const Words& words) {
    if (was == now) return;
    const auto both = [&](int digits) {
      return std::pair(was.has_value() ? words(*was, digits) : std::string(),
                       now.has_value() ? words(*now, digits) : std::string());
    };
    auto [before, after] = both(quantities::kShownDigits);
    if (before == after) std::tie(before, after) = both(quantities::kAllDigits);
    Push(field, label, std::move(before), std::move(after));
  }

  void Push(std::string field, std::string label, std::string was, std::string now) {
    fields_.push_back({std::move(field), std::move(label), std::move(was), std::move(now)});
  }
  std::vector<FieldDifference> Take() { return std::move(fields_); }

 private:
  std::vector<FieldDifference> fields_;
};

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_FIELD_LIST_H_
