#include "storage/columns/statement_text.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/check.h"

namespace rowproof::storage {
namespace {

template <typename TextOfOne>
std::string Joined(const std::vector<ColumnNames::Named>& columns, const TextOfOne& text_of) {
  std::string joined;
  for (const auto& column : columns) {
    if (!joined.empty()) joined += ", ";
    joined += text_of(column);
  }
  return joined;
}

}  // namespace

std::string NumberParameters(std::string_view text,
                             const std::vector<ColumnNames::Named>& parameters) {
  std::string numbered;
  while (true) {
    const size_t open = text.find('{');
    numbered += text.substr(0, open);
    if (open == std::string_view::npos) return numbered;
    const size_t close = text.find('}', open);
    ROWPROOF_CHECK(close != std::string_view::npos);
    const std::string_view name = text.substr(open + 1, close - open - 1);
    const auto found = std::find_if(parameters.begin(), parameters.end(),
                                    [&](const auto& known) { return known.parameter == name; });
    ROWPROOF_CHECK(found != parameters.end());
    numbered += fmt::format("${}", found - parameters.begin() + 1);
    text.remove_prefix(close + 1);
  }
}

std::string NamesOf(const std::vector<ColumnNames::Named>& columns) {
  return Joined(columns, [](const auto& column) { return column.name; });
}

std::string ValuesOf(const std::vector<ColumnNames::Named>& columns) {
  return Joined(columns, [](const auto& column) {
    return column.is_time ? fmt::format("from_micros({{{}}})", column.parameter)
                          : fmt::format("{{{}}}", column.parameter);
  });
}

std::string UnnestOf(const std::vector<ColumnNames::Named>& columns) {
  const std::string arrays = Joined(columns, [](const auto& column) {
    return fmt::format("{{{}}}::{}", column.parameter, column.type);
  });
  return fmt::format("unnest({}) as u ({})", arrays, NamesOf(columns));
}

}  // namespace rowproof::storage
