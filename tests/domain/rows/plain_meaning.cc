#include "tests/domain/rows/plain_meaning.h"

#include <algorithm>
#include <map>

#include "fmt/format.h"

namespace rowproof::rows {
namespace {

using Kind = TextStep::Kind;

using Elements = PlainElements;

constexpr int kMostElements = 4000;

int WidthOf(const Elements& elements) {
  int width = 0;
  for (const PlainElement& element : elements) width += element.width;
  return width;
}

std::string NameOf(TextStitch stitch, chart::Technique technique) {
  const bool spike = technique == chart::Technique::kSpike;
  if (stitch == TextStitch::kSingleCrochet || stitch == TextStitch::kPlain) return ".";
  if (stitch == TextStitch::kDrop) return "x";
  if (spike && stitch == TextStitch::kSpike) return "x";
  if (!spike && (stitch == TextStitch::kMosaicDrop || stitch == TextStitch::kDouble)) return "x";
  return fmt::format("?{}", static_cast<int>(stitch));
}

struct Fault {
  std::string what;
};

class PlainExpansion {
 public:
  PlainExpansion(chart::Technique technique, int size, int stitches, const Elements& below)
      : technique_(technique), size_(size), stitches_(stitches), below_(below) {}

  Elements Of(const std::vector<TextStep>& steps) {
    Add(steps);
    return elements_;
  }

 private:
  void Add(const std::vector<TextStep>& steps) {
    for (size_t i = 0; i < steps.size(); ++i) {
      const TextStep& step = steps[i];
      const TextStep* next = i + 1 < steps.size() ? &steps[i + 1] : nullptr;
      const bool skips = step.kind == Kind::kSkip || step.kind == Kind::kSkipSpace;
      const bool then_skips =
          next != nullptr && (next->kind == Kind::kSkip || next->kind == Kind::kSkipSpace);
      if (step.kind == Kind::kChains && then_skips) {
        AddSpace(step.count.Of(size_), next);
        ++i;
      } else if (skips && next != nullptr && next->kind == Kind::kChains) {
        AddSpace(next->count.Of(size_), &step);
        ++i;
      } else if (step.kind == Kind::kChains) {
        AddSpace(step.count.Of(size_), nullptr);
      } else if (skips) {
        AddSpace(0, &step);
      } else {
        AddStep(step);
      }
    }
  }

  void AddStep(const TextStep& step) {
    const int count = step.count.Of(size_);
    if (step.kind == Kind::kStitches) {
      for (int n = 0; n < count; ++n) Push({NameOf(step.stitch, technique_)});
    } else if (step.kind == Kind::kGroup) {
      for (int n = 0; n < count; ++n) Add(step.inside);
    } else if (step.kind == Kind::kUntil) {
      AddUntil(step, stitches_ - count);
    } else {
      throw Fault{"a step that no written row has"};
    }
  }

  void AddUntil(const TextStep& step, int end) {
    if (WidthOf(elements_) == end && step.inside.size() == 1 &&
        step.inside[0].kind == Kind::kStitches) {
      return;
    }
    do {
      const int before = WidthOf(elements_);
      Add(step.inside);
      if (WidthOf(elements_) == before) throw Fault{"a repeat of nothing"};
    } while (WidthOf(elements_) < end);
    if (WidthOf(elements_) != end)
      throw Fault{fmt::format("misfit by {}", WidthOf(elements_) - end)};
  }

  void AddSpace(int chains, const TextStep* skip) {
    int width = 0;
    if (skip != nullptr) {
      width = skip->kind == Kind::kSkip ? skip->count.Of(size_) : SpaceBelow(chains);
    }
    if (chains == 0 && width == 0) return;
    Push({fmt::format("<{}/{}>", chains, width), width, true});
  }

  int SpaceBelow(int chains) const {
    int at = 0;
    const int here = WidthOf(elements_);
    for (const PlainElement& element : below_) {
      if (at == here && element.space) return element.width;
      at += element.width;
    }
    return std::max(1, chains - 1);
  }

  void Push(PlainElement element) {
    if (elements_.size() >= kMostElements) throw Fault{"too much"};
    elements_.push_back(std::move(element));
  }

  chart::Technique technique_;
  int size_;
  int stitches_;
  const Elements& below_;
  Elements elements_;
};

std::vector<int> NumbersOf(const std::vector<NumberedRows>& entries, int size) {
  std::vector<int> numbers;
  for (const NumberedRows& entry : entries) {
    if (entry.first.Of(size) < 0) continue;  // a size without the row
    for (int n = entry.first.Of(size); n <= entry.last.Of(size); ++n) numbers.push_back(n);
  }
  return numbers;
}

int CountOf(const Elements& elements, const StatedCount& stated, chart::Technique technique) {
  return static_cast<int>(std::count_if(elements.begin(), elements.end(), [&](const auto& element) {
    if (stated.what == StatedCount::What::kChainSpaces) return element.space;
    if (stated.what == StatedCount::What::kStitches) return !element.space;
    return element.says == NameOf(stated.stitch, technique);
  }));
}

}  // namespace

// Which line names a row, and which one's steps it works.
struct PlainReading::Placed {
  int number = 0;
  const TextRow* line = nullptr;
  const TextRow* steps = nullptr;
  std::string side;
  std::string colour;
};

std::vector<PlainReading::Placed> PlainReading::Place(const TextDocument& document, int size) {
  std::vector<Placed> rows;
  std::map<int, Placed> last;
  for (const TextRow& line : document.rows) {
    if (line.only_size != -1 && line.only_size != size) continue;
    const bool again = line.body == TextRow::Body::kReference;
    std::vector<Placed> sources;
    for (const int number : NumbersOf(line.sources, size)) sources.push_back(last[number]);
    const std::vector<int> numbers = NumbersOf(line.numbers, size);
    for (size_t i = 0; i < numbers.size(); ++i) {
      Placed row;
      if (again && !sources.empty()) row = sources[i % sources.size()];
      if (!again) row.steps = &line;
      row.number = numbers[i];
      row.line = &line;
      if (line.side.has_value()) row.side = chart::Name(*line.side);
      if (line.colour.has_value()) row.colour = chart::Name(*line.colour);
      rows.push_back(row);
      last[row.number] = row;
    }
  }
  return rows;
}

PlainReading::PlainReading(const chart::Design& design, const std::vector<int>& stitches,
                           const TextDocument& right)
    : design_(design), stitches_(stitches) {
  for (int size = 0; size < right.size_count(); ++size) {
    std::map<int, RightRow>& rows = right_.emplace_back();
    Elements below;
    for (const Placed& row : Place(right, size)) {
      const Elements elements = ElementsOf(row, size, below);
      below = elements;
      std::reverse(below.begin(), below.end());  // of use for inset alone, turned after every row
      rows[row.number] = {row.side, row.colour, elements, below};
    }
  }
}

Elements PlainReading::ElementsOf(const Placed& row, int size, const Elements& below) const {
  if (row.steps == nullptr || row.steps->body != TextRow::Body::kSteps) throw Fault{"not read"};
  const int stitches = stitches_[static_cast<size_t>(size)];
  return PlainExpansion(design_.technique, size, stitches, below).Of(row.steps->steps);
}

std::string PlainReading::Said(const Placed& row, int size) const {
  const std::map<int, RightRow>& right_rows = right_[static_cast<size_t>(size)];
  const auto found = right_rows.find(row.number);
  const auto found_below = right_rows.find(row.number - 1);
  static const RightRow kNone;
  const RightRow& right = found == right_rows.end() ? kNone : found->second;
  const RightRow& below = found_below == right_rows.end() ? kNone : found_below->second;
  // A row that does not say its side or colour says nothing wrong.
  std::string says = fmt::format("{} {} ", row.side.empty() ? right.side : row.side,
                                 row.colour.empty() ? right.colour : row.colour);
  try {
    for (const PlainElement& element : ElementsOf(row, size, below.as_below)) says += element.says;
  } catch (const Fault& fault) {
    says += fault.what;
  }
  for (const StatedCount& stated : row.line->stated) {
    const int count = stated.count.Of(size);
    if (count != CountOf(right.elements, stated, design_.technique)) {
      says += fmt::format(" ({} of {})", count, static_cast<int>(stated.what));
    }
  }
  // Row 1 begins in the second chain whether it says so or not.
  const bool usual = row.line->first_chain == 2 && row.number == design_.first_row_number &&
                     design_.form == chart::Form::kFlat && !design_.foundation_colour.has_value();
  if (row.line == row.steps && row.line->first_chain > 0 && !usual) {
    says += fmt::format(" chain {}", row.line->first_chain);
  }
  return says;
}

PlainSizes PlainReading::Meaning(const TextDocument& document) const {
  PlainSizes sizes;
  for (int size = 0; size < document.size_count(); ++size) {
    std::vector<PlainRow>& rows = sizes.emplace_back();
    if (const auto& foundation = document.foundation; foundation.has_value()) {
      rows.push_back(
          {-1, fmt::format("ch {} {} {}", foundation->chains.Of(size), foundation->ring,
                           static_cast<int>(foundation->colour.value_or(chart::Colour::kA)))});
    }
    for (const Placed& row : Place(document, size)) rows.push_back({row.number, Said(row, size)});
  }
  return sizes;
}

}  // namespace rowproof::rows
