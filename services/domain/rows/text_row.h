// What a designer's own text says, as it was written: rows with their numbers, sides, colours,
// steps and counts, before any of it is worked out for a size (text_expansion.h) or put in the
// order in which it is worked (text_rows.h). Values; const access from several threads is safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_ROW_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_ROW_H_

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::rows {

// A place in the text: line from 1, column in characters from 1.
struct TextPlace {
  int line = 0;
  int column = 0;
  bool operator==(const TextPlace&) const = default;
};

// A number as written: one for all sizes, or one for each size in order. A row number of a size
// that does not work the row ("-") is kNotWorked (writer.h).
class SizedCount {
 public:
  SizedCount() = default;
  explicit SizedCount(int for_all) : for_all_(for_all) {}
  explicit SizedCount(std::vector<int> by_size)
      : for_all_(by_size.empty() ? 0 : by_size.front()), by_size_(std::move(by_size)) {}

  int Of(int size) const {
    return by_size_.empty() ? for_all_ : by_size_[static_cast<size_t>(size)];
  }
  bool is_list() const { return !by_size_.empty(); }
  const std::vector<int>& list() const { return by_size_; }
  int Largest() const {
    return by_size_.empty() ? for_all_ : *std::max_element(by_size_.begin(), by_size_.end());
  }
  bool operator==(const SizedCount&) const = default;

 private:
  int for_all_ = 0;
  std::vector<int> by_size_;
};

// The stitch a text names, whichever terms it uses (US names here). kMosaicDrop: mdc (UK mtr), as
// the writer calls the drop of overlay and inset. kPlain, kDrop: what the text's own definitions
// ("xs = drop") name.
enum class TextStitch : uint8_t {
  kSingleCrochet,
  kSpike,
  kMosaicDrop,
  kHalfDouble,
  kDouble,
  kTreble,
  kDoubleTreble,
  kSlip,
  kPlain,
  kDrop,
};

// Whether a stitch is the plain or the drop stitch of a technique: sc is plain in all; the drop is
// ssc in spike, mdc or dc in overlay and inset; a defined stitch is what its definition says.
bool IsPlainStitch(TextStitch stitch);
bool IsDropStitch(TextStitch stitch, chart::Technique technique);
// "sc", "ssc", ... in the terms asked for; "plain", "drop" for the defined ones.
const char* AbbreviationOf(TextStitch stitch, chart::Terms terms);

// One step of a row.
struct TextStep {
  enum class Kind : uint8_t {
    kStitches,   // `count` of `stitch`
    kChains,     // `count` chains; with the kSkip next to it one chain space
    kSkip,       // `count` stitches of the row below left unworked
    kSkipSpace,  // `count` chain spaces of the row below left unworked
    kGroup,      // `inside`, `count` times in all
    kUntil,      // `inside` again and again, until `count` stitches of the row below are left
    kFollow,     // `stitch` in each stitch of the row below; over its chain spaces `inside`: one
                 // kChains (count 0: as many chains as there are), or nothing
  };
  Kind kind = Kind::kStitches;
  TextStitch stitch = TextStitch::kSingleCrochet;
  TextPlace at;
  SizedCount count;
  std::vector<TextStep> inside;
  bool operator==(const TextStep&) const = default;
};

// Row numbers first..last by size; both kNotWorked in a size that does not work them.
struct NumberedRows {
  SizedCount first;
  SizedCount last;
  bool operator==(const NumberedRows&) const = default;
};

// A count that the text itself states for a row.
struct StatedCount {
  enum class What : uint8_t { kStitches, kChainSpaces, kOneKind };
  What what = What::kStitches;
  TextStitch stitch = TextStitch::kSingleCrochet;  // kOneKind: "(41 sc, 12 ssc)"
  SizedCount count;
  TextPlace at;
  bool operator==(const StatedCount&) const = default;
};

// What a row says about its start and end besides its stitches.
enum class RowMark : uint16_t {
  kStandingStitch = 1,  // its first stitch starts from a slip knot; it is counted
  kJoinedWithSlip = 2,  // the yarn is joined with a sl st, which is not counted
  kChainAtStart = 4,    // ch 1 (or more, if the text says so) that is not a stitch
  kTurn = 8,
  kNoTurn = 16,
  kFastenOff = 32,
  kJoinedToFirst = 64,  // a round closed with a sl st in its first stitch
};

struct TextRow {
  enum class Body : uint8_t {
    kUnread,     // could not be read: a finding says why; only what is set here was understood
    kSteps,      // `steps`
    kReference,  // worked as `sources`, `times` times
  };
  TextPlace at;  // of its first word
  // Bytes of the text that it takes, including continuation lines.
  size_t begin = 0;
  size_t end = 0;
  // The size whose heading it is under, or -1: all; -2: a size that is not known, which no size
  // works.
  int only_size = -1;
  bool round = false;  // called Rnd or Round
  // "Row 7": one; "Rows 5, 9 and 13": three; "Rows 9-24": one with first and last.
  std::vector<NumberedRows> numbers;
  std::optional<chart::Side> side;      // if stated; "Side A" is the right side
  std::optional<chart::Colour> colour;  // if stated, in the head or by "with B", "join B"
  Body body = Body::kUnread;
  std::vector<TextStep> steps;
  // "in 2nd ch from hook": 2. 0 if the row does not say so.
  int first_chain = 0;
  uint16_t marks = 0;  // RowMark bits
  // kReference. "rep last 2 rows" names the rows before the row's own.
  std::vector<NumberedRows> sources;
  SizedCount times{1};
  bool times_stated = false;        // else the rows' own numbers say how often
  std::vector<StatedCount> stated;  // as stated; at most one of each kind
  // Names a stitch whose meaning depends on the terms (dc, tr, dtr).
  bool depends_on_terms = false;

  bool has(RowMark mark) const { return (marks & static_cast<uint16_t>(mark)) != 0; }
};

// The foundation if the text gives its chains.
struct TextFoundation {
  SizedCount chains;
  std::optional<chart::Colour> colour;
  bool ring = false;  // joined into a ring
  TextPlace at;
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_ROW_H_
