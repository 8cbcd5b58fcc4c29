// Single mutations of correct written texts, over techniques, facings, hands, terms, styles, bands
// and sizes: each that changes what the text says is reported at its row, and none that does not.
// What a text says is decided by plain_meaning.h.
#include <algorithm>
#include <array>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "gtest/gtest.h"
#include "services/domain/chart/expand.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/rows/mutation.h"
#include "tests/domain/rows/plain_meaning.h"
#include "tests/domain/rows/random_design.h"
#include "tests/domain/rows/workable_design.h"

namespace rowproof::rows {
namespace {

struct Met {
  int mutations = 0;
  int named = 0;  // of the first kinds: those that every release has to hold
  int changing = 0;
  int idle = 0;
  int unreadable = 0;
  int exact = 0;  // sizes in which all rows were held against what was reported
  std::array<int, kMutationKinds> by_kind{};
};

// A correct text, line by line.
struct Text {
  chart::Design design;
  WriterSettings written;
  ComparisonSettings settings;
  ReaderSettings reading;
  std::string around;  // what stands before the rows
  std::vector<std::string> lines;
  std::vector<int> stitches;  // by size
  TextDocument document;

  std::string With(const std::vector<std::string>& rows) const {
    std::string text = around;
    for (const std::string& row : rows) text += row + '\n';
    return text;
  }
  int FirstLine() const {
    return 1 + static_cast<int>(std::count(around.begin(), around.end(), '\n'));
  }
};

bool MakeText(std::mt19937& random, Text& text) {
  text.design = RandomDesign(random);
  if (!MakeWorkable(text.design)) return false;
  text.written = RandomSettings(random);
  const auto pattern = WriteRows(text.design, text.written);
  if (!pattern.ok()) return false;
  for (const WrittenRow& row : pattern->rows) {
    if (!row.heading.empty()) text.lines.push_back(row.heading);
    text.lines.push_back(row.text);
  }
  if (random() % 2 == 0) {
    text.around = WholePattern(*pattern);
    text.around.resize(text.around.size() - RowsAlone(*pattern).size());
  }
  text.settings.hand = text.written.hand;
  text.settings.terms = text.written.terms;
  for (size_t i = 0; i < text.written.colour_names.size(); ++i) {
    text.settings.colours.push_back({text.written.colour_names[i], static_cast<chart::Colour>(i)});
  }
  text.reading.terms = text.settings.terms;
  text.reading.colours = text.settings.colours;
  for (const chart::Size& size : text.design.sizes) text.reading.sizes.push_back(size.name);
  for (int size = 0; size < static_cast<int>(text.design.sizes.size()); ++size) {
    text.stitches.push_back(chart::ExpandedStitches(text.design, size));
  }
  auto document = ReadRows(text.With(text.lines), text.reading);
  if (!document.ok() || !document->findings.empty()) return false;
  text.document = *std::move(document);
  if (random() % 2 == 0) {
    for (std::string& line : text.lines) line = InOtherWords(line, random);
  }
  return true;
}

// The rows that a line of either text names, in any size.
void AddRowsAt(const TextDocument& document, int line, std::set<int>& rows) {
  for (const TextRow& row : document.rows) {
    if (row.at.line != line) continue;
    for (const NumberedRows& numbers : row.numbers) {
      for (int size = 0; size < document.size_count(); ++size) {
        if (numbers.first.Of(size) == kNotWorked) continue;
        for (int n = numbers.first.Of(size); n <= numbers.last.Of(size); ++n) rows.insert(n);
      }
    }
  }
}

bool IsReportedAt(const Comparison& compared, const std::set<int>& rows, int line) {
  for (const TextFinding& finding : compared.reading) {
    if (finding.severity == chart::Severity::kError && finding.at.line == line) return true;
  }
  return std::any_of(compared.findings.begin(), compared.findings.end(),
                     [&](const ComparisonFinding& finding) {
                       if (finding.severity == chart::Severity::kNote) return false;
                       if (finding.at.line == line || rows.count(finding.row) > 0) return true;
                       return std::any_of(finding.rows.begin(), finding.rows.end(),
                                          [&](int row) { return rows.count(row) > 0; });
                     });
}

std::string AllOf(const Comparison& compared) {
  std::string all;
  for (const TextFinding& finding : compared.reading) all += Sentence(finding) + '\n';
  for (const ComparisonFinding& finding : compared.findings) {
    all += Sentence(finding, compared) + '\n';
  }
  return all;
}

// Numbers of the rows that say something else, in one size; nothing where the texts have other
// rows.
std::optional<std::set<int>> OtherRows(const std::vector<PlainRow>& mutated,
                                       const std::vector<PlainRow>& right) {
  std::set<int> rows;
  if (mutated.size() != right.size()) return std::nullopt;
  for (size_t i = 0; i < right.size(); ++i) {
    if (mutated[i].number != right[i].number) return std::nullopt;
    if (mutated[i].says != right[i].says) rows.insert(right[i].number);
  }
  return rows;
}

// Where a text has the rows that it ought to have: just those that say something else are reported,
// in just those sizes.
void CheckRows(const Comparison& compared, const PlainSizes& mutated, const PlainSizes& right,
               Met& met) {
  std::vector<std::set<int>> reported(right.size());
  std::vector<bool> in_size(right.size(), false);
  std::vector<bool> all_named(right.size(), true);
  for (const ComparisonFinding& finding : compared.findings) {
    if (finding.severity == chart::Severity::kNote) continue;
    for (const int size : finding.sizes) in_size[static_cast<size_t>(size)] = true;
    for (size_t i = 1; i < finding.sizes.size(); ++i) {
      all_named[static_cast<size_t>(finding.sizes[i])] = false;
    }
    reported[static_cast<size_t>(finding.sizes.front())].insert(finding.rows.begin(),
                                                                finding.rows.end());
  }
  for (size_t size = 0; size < right.size(); ++size) {
    const auto other = OtherRows(mutated[size], right[size]);
    if (!other.has_value() || other->count(-1) > 0) return;
    ++met.exact;
    ASSERT_EQ(in_size[size], !other->empty()) << "size " << size;
    if (all_named[size]) {
      ASSERT_EQ(reported[size], *other) << "size " << size;
    } else {  // `rows` are those of a finding's first size
      ASSERT_TRUE(
          std::includes(other->begin(), other->end(), reported[size].begin(), reported[size].end()))
          << "size " << size;
    }
  }
}

// Whether nothing is said of a row that says the same; of one that names neither side nor colour
// any more, only that.
bool IsSilent(const Comparison& compared, const std::string& line) {
  const bool labelled = line.find("S, ") != std::string::npos;
  return compared.equal() && std::all_of(compared.findings.begin(), compared.findings.end(),
                                         [&](const ComparisonFinding& finding) {
                                           return !labelled &&
                                                  finding.severity == chart::Severity::kNote &&
                                                  (finding.code == ComparisonCode::kSideLeftOut ||
                                                   finding.code == ComparisonCode::kColourLeftOut);
                                         });
}

void CheckMutation(const Text& text, const PlainReading& reading, const PlainSizes& right,
                   const std::vector<std::string>& lines, size_t at, Met& met) {
  const std::string whole = text.With(lines);
  const std::string what = text.lines[at] + "\nbecame\n" + lines[at] + "\nin\n" + whole;
  const auto document = ReadRows(whole, text.reading);
  const auto compared = CompareRows(text.design, whole, text.settings);
  ASSERT_TRUE(document.ok() && compared.ok()) << compared.status() << what;
  const bool unread = document->error_count > 0;
  const PlainSizes meaning = unread ? PlainSizes() : reading.Meaning(*document);
  const bool changed = unread || meaning != right;
  met.unreadable += unread;
  if (!changed) {
    ++met.idle;
    ASSERT_TRUE(IsSilent(*compared, lines[at])) << AllOf(*compared) << what;
    return;
  }
  ++met.changing;
  ASSERT_FALSE(compared->equal()) << AllOf(*compared) << what;
  const int line = text.FirstLine() + static_cast<int>(at);
  std::set<int> rows;
  AddRowsAt(text.document, line, rows);
  AddRowsAt(*document, line, rows);
  ASSERT_TRUE(IsReportedAt(*compared, rows, line)) << AllOf(*compared) << what;
  if (unread) return;
  CheckRows(*compared, meaning, right, met);
  if (testing::Test::HasFatalFailure()) FAIL() << AllOf(*compared) << what;
}

// The text as it is mutated says what the written one says.
void CheckOtherWords(const Text& text, const PlainReading& reading, const PlainSizes& right) {
  const std::string whole = text.With(text.lines);
  const auto document = ReadRows(whole, text.reading);
  const auto compared = CompareRows(text.design, whole, text.settings);
  ASSERT_TRUE(document.ok() && compared.ok());
  ASSERT_EQ(document->error_count, 0) << AllOf(*compared) << whole;
  ASSERT_EQ(reading.Meaning(*document), right) << whole;
  ASSERT_TRUE(compared->equal() && compared->findings.empty()) << AllOf(*compared) << whole;
}

TEST(CompareMutatedRows, ReportsWhatChangesTheMeaningAndNothingElse) {
  const int wanted = chart::kExhaustive ? 10'000 : 300;
  std::mt19937 random(421);
  Met met;
  while (met.named < wanted) {
    Text text;
    if (!MakeText(random, text)) continue;
    const PlainReading reading(text.design, text.stitches, text.document);
    const PlainSizes right = reading.Meaning(text.document);
    CheckOtherWords(text, reading, right);
    if (HasFatalFailure()) FAIL() << "after " << met.mutations << " mutations";
    for (int n = 0; n < 12; ++n) {
      const auto kind = static_cast<MutationKind>(random() % kMutationKinds);
      const size_t at = random() % text.lines.size();
      std::vector<std::string> lines = text.lines;
      if (lines[at].rfind("Size ", 0) == 0) continue;
      if (!Mutate(kind, at, text.written.terms, random, lines)) continue;
      ++met.mutations;
      met.named += kind <= MutationKind::kSide;
      ++met.by_kind[static_cast<size_t>(kind)];
      CheckMutation(text, reading, right, lines, at, met);
      if (HasFatalFailure()) FAIL() << "after " << met.mutations << " mutations";
    }
  }
  EXPECT_GT(met.changing, wanted / 2);
  EXPECT_GT(met.changing - met.unreadable, wanted / 2);
  EXPECT_GT(met.exact, wanted / 2);
  EXPECT_GT(met.idle, wanted / 50);
  for (const int count : met.by_kind) EXPECT_GT(count, wanted / 80);
}

}  // namespace
}  // namespace rowproof::rows
