#include "services/domain/patterns/text_differences.h"

#include <algorithm>
#include <string_view>

#include "absl/container/flat_hash_map.h"
#include "fmt/format.h"
#include "services/domain/patterns/field_list.h"
#include "services/domain/patterns/longest_common.h"
#include "services/text/utf8.h"

namespace rowproof::patterns {
namespace {

constexpr size_t kLongestShown = 160;  // bytes
constexpr size_t kContext = 40;        // bytes before the first difference of two long lines

// At most kMostSequence lines: what is over stays in the last one.
std::vector<std::string_view> Lines(std::string_view text) {
  std::vector<std::string_view> lines;
  if (text.empty()) return lines;
  while (lines.size() + 1 < kMostSequence) {
    const size_t end = text.find('\n');
    if (end == std::string_view::npos) break;
    lines.push_back(text.substr(0, end));
    text.remove_prefix(end + 1);
  }
  lines.push_back(text);
  return lines;
}

std::vector<uint32_t> Intern(const std::vector<std::string_view>& lines,
                             absl::flat_hash_map<std::string_view, uint32_t>& ids) {
  std::vector<uint32_t> numbers;
  numbers.reserve(lines.size());
  for (const std::string_view line : lines) {
    numbers.push_back(ids.try_emplace(line, static_cast<uint32_t>(ids.size())).first->second);
  }
  return numbers;
}

std::string Shown(std::string_view line, size_t from) {
  if (line.empty()) return "an empty line";
  std::string shown = from > 0 ? "..." : "";
  const std::string_view rest = line.substr(from);
  const std::string_view start = text::FirstBytes(rest, kLongestShown);
  shown += start;
  if (start.size() < rest.size()) shown += "...";
  std::replace(shown.begin(), shown.end(), '\n', ' ');
  return shown;
}

class LineDifferences {
 public:
  LineDifferences(const std::string& field, const std::string& label, FieldList& fields)
      : field_(field), label_(label), fields_(fields) {}

  // Lines from 0; absent if the line is new or gone.
  void Add(std::optional<size_t> was_at, std::string_view was, std::optional<size_t> now_at,
           std::string_view now) {
    if (++count_ > kMostTextDifferences) return;
    size_t from = 0;
    if (was_at.has_value() && now_at.has_value()) {
      from = static_cast<size_t>(
          std::mismatch(was.begin(), was.end(), now.begin(), now.end()).first - was.begin());
      const bool near_start = from < kLongestShown / 2;
      from = near_start ? 0 : text::FirstBytes(was, from - kContext).size();
    }
    std::string label = now_at.has_value() ? fmt::format("{}, line {}", label_, *now_at + 1)
                                           : fmt::format("{}, line {} before", label_, *was_at + 1);
    fields_.Push(field_, std::move(label), was_at.has_value() ? Shown(was, from) : std::string(),
                 now_at.has_value() ? Shown(now, from) : std::string());
  }

  void End() {
    if (count_ <= kMostTextDifferences) return;
    const size_t more = count_ - kMostTextDifferences;
    fields_.Push(field_, label_, "otherwise",
                 fmt::format("{} more {} changed", more, more == 1 ? "line" : "lines"));
  }

 private:
  const std::string& field_;
  const std::string& label_;
  FieldList& fields_;
  size_t count_ = 0;
};

}  // namespace

void AddTextDifferences(const std::string& field, const std::string& label, const std::string& was,
                        const std::string& now, FieldList& fields) {
  if (was == now) return;
  const std::vector<std::string_view> before = Lines(was);
  const std::vector<std::string_view> after = Lines(now);
  absl::flat_hash_map<std::string_view, uint32_t> ids;
  const std::vector<uint32_t> before_ids = Intern(before, ids);
  const std::vector<uint32_t> after_ids = Intern(after, ids);
  LineDifferences differences(field, label, fields);
  size_t i = 0;
  size_t j = 0;
  const auto fill = [&](size_t before_end, size_t after_end) {
    for (; i < before_end && j < after_end; ++i, ++j) differences.Add(i, before[i], j, after[j]);
    for (; i < before_end; ++i) differences.Add(i, before[i], std::nullopt, {});
    for (; j < after_end; ++j) differences.Add(std::nullopt, {}, j, after[j]);
  };
  for (const auto& [at_before, at_after] : LongestCommonSubsequence(before_ids, after_ids)) {
    fill(static_cast<size_t>(at_before), static_cast<size_t>(at_after));
    ++i;
    ++j;
  }
  fill(before.size(), after.size());
  differences.End();
}

}  // namespace rowproof::patterns
