#include "services/domain/estimate/another_maker.h"

#include <set>

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::estimate {

absl::StatusOr<Materials> MadeBy(const AnotherMaker& maker, const Materials& materials) {
  Materials made = materials;
  std::set<YarnColour> seen;
  for (size_t i = 0; i < maker.yarns.size(); ++i) {
    const auto& [colour, yarn] = maker.yarns[i];
    const std::string field = fmt::format("yarns[{}].role", i);
    if (!seen.insert(colour).second)
      return InvalidField(field, Name(colour), "a colour that is not listed yet");
    Yarn* replaced = FindYarn(made, colour);
    if (replaced == nullptr) {
      return InvalidField(field, Name(colour), "the colour of one of the version's yarns");
    }
    *replaced = yarn;
  }
  if (maker.gauge.has_value()) {
    made.gauge = *maker.gauge;
    made.gauge_is_of_another_fabric = maker.gauge_is_of_another_fabric;
    made.gauge_after_blocking.reset();
  }
  if (maker.gauge_after_blocking.has_value()) {
    made.gauge_after_blocking = maker.gauge_after_blocking;
  }
  const auto replace = [](auto& value, const auto& by) {
    if (by.has_value()) value = by;
  };
  replace(made.hook_mm, maker.hook_mm);
  replace(made.ends, maker.ends);
  replace(made.tail_mm, maker.tail_mm);
  replace(made.stitches_per_minute, maker.stitches_per_minute);
  replace(made.minutes_per_row_start, maker.minutes_per_row_start);
  if (maker.assurance.has_value()) made.assurance = *maker.assurance;
  return made;
}

}  // namespace rowproof::estimate
