#include "services/images/cell_colours.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

constexpr size_t kMostColoursListed = 12;

// Means the colour that a picture of one colour does not have.
Rgb Opposite(Rgb colour) { return IsDark(colour) ? kWhite : kBlack; }

bool IsLighter(Rgb one, Rgb other) {
  return std::pair(Luma1000(one), Packed(one)) > std::pair(Luma1000(other), Packed(other));
}

bool HasMeaning(const std::vector<ColourMeaning>& meanings, size_t letter) {
  return std::any_of(meanings.begin(), meanings.end(), [letter](const ColourMeaning& meaning) {
    return static_cast<size_t>(meaning.taken_for) == letter;
  });
}

bool IsFurtherFromAll(Rgb colour, const std::vector<ColourMeaning>& meanings, int tolerance) {
  return std::all_of(meanings.begin(), meanings.end(), [&](const ColourMeaning& meaning) {
    return Distance(colour, meaning.colour) > tolerance;
  });
}

std::vector<ColourMeaning> MeaningsOfOneColour(Rgb colour) {
  return IsDark(colour) ? std::vector<ColourMeaning>{{Opposite(colour), chart::Colour::kA},
                                                     {colour, chart::Colour::kB}}
                        : std::vector<ColourMeaning>{{colour, chart::Colour::kA},
                                                     {Opposite(colour), chart::Colour::kB}};
}

// The given meanings and those found for the letters that have none. `sorted`: by frequency.
std::vector<ColourMeaning> FindMeanings(const Picture& picture, const std::vector<Rgb>& sorted,
                                        const ImportSettings& settings) {
  const std::vector<ColourMeaning> given = GivenMeanings(settings);
  std::vector<chart::Colour> letters;
  for (size_t letter = 0; letter < CountOfLetters(settings); ++letter) {
    if (!HasMeaning(given, letter)) letters.push_back(static_cast<chart::Colour>(letter));
  }
  std::vector<ColourMeaning> meanings = given;
  std::vector<Rgb> found;
  for (const Rgb colour : sorted) {
    if (found.size() == letters.size() || picture.StopAfter(meanings.size())) break;
    if (!IsFurtherFromAll(colour, meanings, settings.tolerance)) continue;
    found.push_back(colour);
    meanings.push_back({colour, chart::Colour::kA});  // keeps the next ones at a distance
  }
  if (given.empty() && found.size() == 1) return MeaningsOfOneColour(found.front());
  std::sort(found.begin(), found.end(), IsLighter);
  meanings = given;
  for (size_t i = 0; i < found.size(); ++i) meanings.push_back({found[i], letters[i]});
  return meanings;
}

// kNoClass: too far from every colour with a meaning, or as far from one as from another.
CellClass ClassOf(Rgb colour, const std::vector<ColourMeaning>& meanings, int tolerance) {
  int nearest = tolerance + 1;
  CellClass taken = kNoClass;
  for (const ColourMeaning& meaning : meanings) {
    const int distance = Distance(colour, meaning.colour);
    const auto letter = static_cast<CellClass>(meaning.taken_for);
    if (distance < nearest) {
      nearest = distance;
      taken = letter;
    } else if (distance == nearest && distance <= tolerance && letter != taken) {
      taken = kNoClass;
    }
  }
  return taken;
}

// A letter's colour, for the report; if it has none, a colour that no letter has.
Rgb ColourOf(chart::Colour letter, const std::vector<ColourMeaning>& meanings, Rgb otherwise) {
  for (const ColourMeaning& meaning : meanings) {
    if (meaning.taken_for == letter) return meaning.colour;
  }
  return otherwise;
}

// A colour of the picture and its pixels.
using ColourCount = std::pair<Rgb, int64_t>;

std::string Pixels(int64_t count) {
  return fmt::format("{} pixel{}", count, count == 1 ? "" : "s");
}

std::string ListOf(const std::vector<ColourMeaning>& meanings,
                   const std::vector<ColourCount>& counted) {
  std::string list;
  for (size_t i = 0; i < std::min(meanings.size(), kMostColoursListed); ++i) {
    const Rgb colour = meanings[i].colour;
    const auto met = std::find_if(counted.begin(), counted.end(),
                                  [&](const ColourCount& one) { return one.first == colour; });
    list +=
        fmt::format("{}colour {} ({}, {})", i == 0 ? "" : ", ", chart::Name(meanings[i].taken_for),
                    Text(colour), Pixels(met == counted.end() ? 0 : met->second));
  }
  return list;
}

absl::Status RefuseColours(const std::vector<ColourCount>& counted,
                           const std::vector<ColourCount>& refused,
                           std::vector<ColourMeaning> meanings, const ImportSettings& settings) {
  std::string list;
  for (size_t i = 0; i < std::min(refused.size(), kMostColoursListed); ++i) {
    list += fmt::format("{}colour {}, {}", i == 0 ? "" : "; ", Text(refused[i].first),
                        Pixels(refused[i].second));
  }
  if (refused.size() > kMostColoursListed) {
    list += fmt::format("; and {} more colours", refused.size() - kMostColoursListed);
  }
  std::stable_sort(meanings.begin(), meanings.end(), [](const auto& one, const auto& other) {
    return one.taken_for < other.taken_for;
  });
  return Refusal("content", fmt::format("The picture has other colours than {}: {}. Raise the "
                                        "tolerance ({} now), or say which colour each stands for.",
                                        ListOf(meanings, counted), list, settings.tolerance));
}

}  // namespace

size_t CountOfLetters(const ImportSettings& settings) {
  size_t count = 2;
  if (settings.convention == chart::Convention::kWorking) return count;
  for (const chart::Colour colour : settings.row_colours) {
    count = std::max(count, static_cast<size_t>(colour) + 1);
  }
  return count;
}

std::vector<ColourMeaning> GivenMeanings(const ImportSettings& settings) {
  std::vector<ColourMeaning> given = settings.meanings;
  if (settings.colour_a.has_value()) given.push_back({*settings.colour_a, chart::Colour::kA});
  if (settings.colour_b.has_value()) given.push_back({*settings.colour_b, chart::Colour::kB});
  return given;
}

std::vector<size_t> ByFrequency(const std::vector<Rgb>& palette, const PixelCounts& counts) {
  std::vector<size_t> sorted;
  for (size_t i = 0; i < palette.size(); ++i) {
    if (counts[i] > 0) sorted.push_back(i);
  }
  std::sort(sorted.begin(), sorted.end(), [&](size_t one, size_t other) {
    if (counts[one] != counts[other]) return counts[one] > counts[other];
    return Packed(palette[one]) < Packed(palette[other]);
  });
  return sorted;
}

absl::StatusOr<CellColours> FindCellColours(const Picture& picture, const PixelCounts& counts,
                                            const ImportSettings& settings) {
  // Pixels that were not counted would be missed below.
  if (auto status = picture.stop_status(); !status.ok()) return status;
  const std::vector<Rgb>& palette = picture.palette();
  const std::vector<size_t> sorted = ByFrequency(palette, counts);
  ROWPROOF_CHECK(!sorted.empty());
  std::vector<Rgb> colours;
  colours.reserve(sorted.size());
  for (const size_t number : sorted) colours.push_back(palette[number]);
  const std::vector<ColourMeaning> meanings = FindMeanings(picture, colours, settings);

  CellColours found;
  found.class_of.assign(palette.size(), kNoClass);
  std::vector<ColourCount> counted;
  std::vector<ColourCount> refused;
  for (const size_t number : sorted) {
    const Rgb colour = palette[number];
    if (picture.StopAfter(meanings.size())) return picture.stop_status();
    const CellClass taken = ClassOf(colour, meanings, settings.tolerance);
    found.class_of[number] = taken;
    counted.emplace_back(colour, counts[number]);
    if (taken == kNoClass) {
      refused.emplace_back(colour, counts[number]);
    } else {
      found.taken.push_back({colour, counts[number], static_cast<chart::Colour>(taken)});
    }
  }
  if (!refused.empty()) return RefuseColours(counted, refused, meanings, settings);
  const Rgb first = ColourOf(chart::Colour::kA, meanings, Opposite(colours.front()));
  found.colour_a = first;
  found.colour_b = ColourOf(chart::Colour::kB, meanings, Opposite(first));
  return found;
}

}  // namespace rowproof::images
