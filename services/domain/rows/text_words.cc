#include "services/domain/rows/text_words.h"

#include <span>

#include "fmt/format.h"
#include "services/domain/rows/number_list.h"

namespace rowproof::rows {
namespace {

using Kind = TextStep::Kind;

std::string ListOf(const SizedCount& count) {
  return count.is_list() ? List(count.list()) : List(std::vector<int>{count.Of(0)});
}

bool IsOne(const SizedCount& count) { return !count.is_list() && count.Of(0) == 1; }

std::string Until(const SizedCount& left) {
  if (left == SizedCount(0)) return " across";
  return IsOne(left) ? " to last st" : fmt::format(" to last {} sts", ListOf(left));
}

class StepWords {
 public:
  explicit StepWords(chart::Terms terms) : terms_(terms) {}

  std::string Of(std::span<const TextStep> steps) const {
    std::string words;
    for (const TextStep& step : steps) words += (words.empty() ? "" : ", ") + Of(step);
    return words;
  }

 private:
  std::string Stitch(TextStitch stitch) const { return AbbreviationOf(stitch, terms_); }
  const char* Skip() const { return terms_ == chart::Terms::kUs ? "sk" : "miss"; }

  std::string Of(const TextStep& step) const {
    switch (step.kind) {
      case Kind::kStitches:
        return IsOne(step.count) ? Stitch(step.stitch)
                                 : fmt::format("{} {}", Stitch(step.stitch), ListOf(step.count));
      case Kind::kChains:
        return fmt::format("ch {}", ListOf(step.count));
      case Kind::kSkip:
        return fmt::format("{} {} {}", Skip(), ListOf(step.count),
                           IsOne(step.count) ? "st" : "sts");
      case Kind::kSkipSpace:
        return fmt::format("{} ch-sp", Skip());
      case Kind::kGroup:
        return fmt::format("[{}] {} times", Of(step.inside), ListOf(step.count));
      case Kind::kUntil:
        return OfUntil(step);
      case Kind::kFollow:
        return OfFollow(step);
    }
    return "";
  }

  std::string OfUntil(const TextStep& step) const {
    const bool one = step.inside.size() == 1 && step.inside[0].kind == Kind::kStitches &&
                     IsOne(step.inside[0].count);
    const std::string inside = Of(step.inside);
    return (one ? inside + " in each st" : '[' + inside + ']') + Until(step.count);
  }

  std::string OfFollow(const TextStep& step) const {
    const std::string stitch = Stitch(step.stitch);
    const std::string each = fmt::format("{} in each {}", stitch, stitch);
    if (step.inside.empty()) return each + Until(step.count);
    const SizedCount& chains = step.inside[0].count;
    return fmt::format("{}, ch{} over each ch-sp{}", each,
                       chains == SizedCount(0) ? "" : ' ' + ListOf(chains), Until(step.count));
  }

  const chart::Terms terms_;
};

std::string Range(const NumberedRows& rows) {
  const std::string first = ListOf(rows.first);
  return rows.first == rows.last ? first : fmt::format("{}-{}", first, ListOf(rows.last));
}

std::string Ranges(const std::vector<NumberedRows>& rows) {
  std::string words;
  for (const NumberedRows& range : rows) words += (words.empty() ? "" : ", ") + Range(range);
  return words;
}

std::string Ordinal(int n) { return fmt::format("{}{}", n, n == 2 ? "nd" : n == 3 ? "rd" : "th"); }

}  // namespace

std::string Words(const TextRow& row, chart::Terms terms) {
  switch (row.body) {
    case TextRow::Body::kUnread:
      return "";
    case TextRow::Body::kReference: {
      const bool several = row.sources.size() > 1 || row.sources[0].first != row.sources[0].last;
      const std::string source = fmt::format("as {}{} {}", row.round ? "Rnd" : "Row",
                                             several ? "s" : "", Ranges(row.sources));
      return row.times_stated ? fmt::format("{}, {} times", source, ListOf(row.times)) : source;
    }
    case TextRow::Body::kSteps:
      break;
  }
  std::string steps = StepWords(terms).Of(row.steps);
  if (row.first_chain == 0) return steps;
  return fmt::format("starting in {} ch from hook, {}", Ordinal(row.first_chain), steps);
}

std::string Numbers(const TextRow& row) { return Ranges(row.numbers); }

}  // namespace rowproof::rows
