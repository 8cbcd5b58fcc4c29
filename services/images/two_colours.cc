#include "services/images/two_colours.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

constexpr size_t kMostColoursListed = 12;

// The most frequent colour that is further from `from` than the tolerance.
std::optional<Rgb> FurtherThan(int tolerance, Rgb from, const std::vector<CountedColour>& sorted) {
  for (const auto& counted : sorted) {
    if (Distance(counted.colour, from) > tolerance) return counted.colour;
  }
  return std::nullopt;
}

// Stands for the colour that a picture of one colour does not have.
Rgb Opposite(Rgb colour) { return IsDark(colour) ? kWhite : kBlack; }

bool IsLighter(Rgb one, Rgb other) {
  return std::pair(Luma1000(one), Packed(one)) > std::pair(Luma1000(other), Packed(other));
}

struct Pair {
  Rgb a;
  Rgb b;
  // The picture has one colour only: all pixels are A, or all are B.
  std::optional<bool> all_b;
};

Pair FindPair(const std::vector<CountedColour>& sorted, const ImportSettings& settings) {
  const auto& a = settings.colour_a;
  const auto& b = settings.colour_b;
  if (a.has_value() && b.has_value()) return {*a, *b, std::nullopt};
  if (a.has_value() || b.has_value()) {
    const Rgb given = a.has_value() ? *a : *b;
    const auto found = FurtherThan(settings.tolerance, given, sorted);
    const Rgb other = found.value_or(Opposite(given));
    const std::optional<bool> all_b =
        found.has_value() ? std::nullopt : std::optional<bool>(b.has_value());
    return a.has_value() ? Pair{given, other, all_b} : Pair{other, given, all_b};
  }
  const Rgb first = sorted.front().colour;
  const auto second = FurtherThan(settings.tolerance, first, sorted);
  if (!second.has_value()) {
    return IsDark(first) ? Pair{Opposite(first), first, true} : Pair{first, Opposite(first), false};
  }
  return IsLighter(first, *second) ? Pair{first, *second, std::nullopt}
                                   : Pair{*second, first, std::nullopt};
}

// No value: too far from both, or as far from the one as from the other.
std::optional<bool> ReadsAsB(Rgb colour, const Pair& pair, int tolerance) {
  if (pair.all_b.has_value()) return *pair.all_b;
  const int from_a = Distance(colour, pair.a);
  const int from_b = Distance(colour, pair.b);
  if (std::min(from_a, from_b) > tolerance || from_a == from_b) return std::nullopt;
  return from_b < from_a;
}

absl::Status RefuseColours(const std::vector<CountedColour>& refused, const Pair& pair,
                           int tolerance) {
  std::string list;
  for (size_t i = 0; i < std::min(refused.size(), kMostColoursListed); ++i) {
    list += fmt::format("{}colour {}, {} pixel{}", i == 0 ? "" : "; ", Text(refused[i].colour),
                        refused[i].pixels, refused[i].pixels == 1 ? "" : "s");
  }
  if (refused.size() > kMostColoursListed) {
    list += fmt::format("; and {} more colours", refused.size() - kMostColoursListed);
  }
  return Refusal(
      "image",
      fmt::format("pixels that are neither colour A ({}) nor colour B ({}) were met: {}",
                  Text(pair.a), Text(pair.b), list),
      fmt::format("a picture of two colours, each pixel within {} of the nearer one in red, "
                  "green and blue (the tolerance)",
                  tolerance));
}

}  // namespace

bool ColourCounts::Add(Rgb colour, int64_t pixels) {
  const auto found = pixels_.find(Packed(colour));
  if (found != pixels_.end()) {
    found->second += pixels;
    return true;
  }
  if (pixels_.size() >= static_cast<size_t>(kMostColours)) return false;
  pixels_.emplace(Packed(colour), pixels);
  return true;
}

std::vector<CountedColour> ColourCounts::Sorted() const {
  std::vector<CountedColour> sorted;
  sorted.reserve(pixels_.size());
  for (const auto& [packed, pixels] : pixels_) sorted.push_back({Unpacked(packed), pixels});
  std::sort(sorted.begin(), sorted.end(), [](const auto& one, const auto& other) {
    if (one.pixels != other.pixels) return one.pixels > other.pixels;
    return Packed(one.colour) < Packed(other.colour);
  });
  return sorted;
}

absl::StatusOr<TwoColours> FindTwoColours(const ColourCounts& counts,
                                          const ImportSettings& settings) {
  const std::vector<CountedColour> sorted = counts.Sorted();
  ROWPROOF_CHECK(!sorted.empty());
  const Pair pair = FindPair(sorted, settings);
  TwoColours colours{pair.a, pair.b, {}};
  std::vector<CountedColour> refused;
  for (const auto& counted : sorted) {
    const auto is_b = ReadsAsB(counted.colour, pair, settings.tolerance);
    if (is_b.has_value()) {
      colours.reads_as_b.emplace(Packed(counted.colour), *is_b);
    } else {
      refused.push_back(counted);
    }
  }
  if (!refused.empty()) return RefuseColours(refused, pair, settings.tolerance);
  return colours;
}

}  // namespace rowproof::images
