#include "services/client/parsing/nearest.h"

#include <algorithm>
#include <cstddef>

namespace rowproof::client {
namespace {

// Longer than any word of ours: the work is bounded whatever is typed.
constexpr size_t kLongestWord = 60;
constexpr size_t kShortestBeginning = 3;

// Distance of optimal string alignment.
size_t Differences(const std::string& a, const std::string& b) {
  std::vector<std::vector<size_t>> d(a.size() + 1, std::vector<size_t>(b.size() + 1));
  for (size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  for (size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
  for (size_t i = 1; i <= a.size(); ++i) {
    for (size_t j = 1; j <= b.size(); ++j) {
      const size_t other = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + other});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

}  // namespace

std::string NearestOf(const std::string& typed, const std::vector<std::string>& candidates) {
  if (typed.empty() || typed.size() > kLongestWord) return {};
  std::string nearest;
  size_t least = std::max<size_t>(1, typed.size() / 3) + 1;
  for (const std::string& candidate : candidates) {
    const size_t differences = Differences(typed, candidate);
    if (differences >= least) continue;
    least = differences;
    nearest = candidate;
  }
  if (!nearest.empty() || typed.size() < kShortestBeginning) return nearest;
  for (const std::string& candidate : candidates) {
    if (candidate.starts_with(typed)) return candidate;
  }
  return {};
}

std::string DidYouMean(const std::string& typed, const std::vector<std::string>& candidates) {
  const std::string nearest = NearestOf(typed, candidates);
  return nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?";
}

std::string AnyOf(const std::vector<std::string>& words) {
  std::string text;
  for (size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
  }
  return text;
}

}  // namespace rowproof::client
