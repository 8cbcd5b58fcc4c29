#include "services/domain/rows/number_list.h"

#include <algorithm>

#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

std::string List(const std::vector<std::string>& texts) {
  const bool alike = std::all_of(texts.begin(), texts.end(),
                                 [&](const std::string& text) { return text == texts.front(); });
  std::string list = texts.front();
  if (alike) return list;
  for (size_t i = 1; i < texts.size(); ++i) list += (i == 1 ? " (" : ", ") + texts[i];
  return list + ')';
}

std::string List(const std::vector<int>& numbers) {
  const auto one = [](int n) { return n == kNotWorked ? std::string("-") : std::to_string(n); };
  if (std::all_of(numbers.begin(), numbers.end(), [&](int n) { return n == numbers.front(); })) {
    return one(numbers.front());
  }
  std::vector<std::string> texts;
  texts.reserve(numbers.size());
  for (const int n : numbers) texts.push_back(one(n));
  return List(texts);
}

std::string Counted(const std::vector<int>& numbers, const char* one, const char* several) {
  std::string list = List(numbers);
  list += ' ';
  return list += list == "1 " ? one : several;
}

}  // namespace rowproof::rows
