#include "services/domain/names/names.h"

#include <algorithm>

#include "absl/strings/numbers.h"
#include "absl/strings/str_split.h"
#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof {
namespace {

constexpr size_t kLongestNumber = 9;
// More parts than any name has; the rest is not split.
constexpr size_t kLongestName = 400;
constexpr std::string_view kTestCalls = "testCalls";
constexpr std::string_view kFormerTestCalls = "calls";

bool Store(std::string_view text, std::string* identifier) {
  if (!IsIdentifier(text)) return false;
  *identifier = std::string(text);
  return true;
}

bool Store(std::string_view text, int* number) {
  if (text.empty() || text.size() > kLongestNumber || text.front() == '0') return false;
  if (!std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; })) {
    return false;
  }
  return absl::SimpleAtoi(absl::string_view(text.data(), text.size()), number);
}

bool IsVariable(std::string_view segment) { return segment.starts_with('{'); }

bool IsCollection(std::string_view collection, std::string_view text) {
  return text == collection || (collection == kTestCalls && text == kFormerTestCalls);
}

std::vector<std::string> Segments(std::string_view path) {
  return absl::StrSplit(absl::string_view(path.data(), path.size()), '/');
}

}  // namespace

bool ReadNameParts(std::string_view form, std::string_view text,
                   const std::vector<NamePart>& parts) {
  const std::vector<std::string> expected = Segments(form);
  const std::vector<std::string> found = Segments(text.substr(0, kLongestName));
  if (expected.size() != found.size()) return false;
  auto part = parts.begin();
  for (size_t i = 0; i < expected.size(); ++i) {
    if (!IsVariable(expected[i])) {
      if (!IsCollection(expected[i], found[i])) return false;
      continue;
    }
    const std::string& segment = found[i];
    if (!std::visit([&segment](auto* to) { return Store(segment, to); }, *part++)) return false;
  }
  return true;
}

std::string PrintNameParts(std::string_view form, const std::vector<NameValue>& values) {
  std::string text;
  auto value = values.begin();
  for (const std::string& segment : Segments(form)) {
    if (!text.empty()) text += '/';
    text += IsVariable(segment)
                ? std::visit([](const auto* from) { return fmt::format("{}", *from); }, *value++)
                : segment;
  }
  return text;
}

absl::Status InvalidName(const std::string& field, std::string_view text, std::string_view form) {
  const std::string expected = fmt::format("a name like {}", form);
  if (text.empty()) return MissingField(field, expected);
  return InvalidField(field, std::string(text), expected);
}

}  // namespace rowproof
