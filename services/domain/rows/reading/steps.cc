#include "services/domain/rows/reading/steps.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/rows/reading/amounts.h"
#include "services/domain/rows/reading/closing.h"
#include "services/domain/rows/reading/marks.h"
#include "services/domain/rows/reading/stitches.h"
#include "services/domain/rows/text_expansion.h"

namespace rowproof::rows {
namespace {

using Kind = TextStep::Kind;

// What ends a list of steps.
struct Enclosure {
  enum class Type : uint8_t { kRow, kBracket, kStars };
  Type type = Type::kRow;
  size_t close = 0;  // kBracket
  int stars = 0;     // kStars
};

bool ReadList(RowReading& reading, int depth, const Enclosure& in);

bool AtRepeatFrom(const RowReading& reading) {
  size_t next = 0;
  if (!reading.Peek(next).is(Word::kRep)) return false;
  ++next;
  if (reading.Peek(next).is(Word::kFrom)) ++next;
  return reading.Peek(next).is('*');
}

bool AtAmountOrRepeat(const RowReading& reading, size_t ahead) {
  size_t next = ahead;
  while (reading.Peek(next).is(',') || reading.Peek(next).is(';') || reading.Peek(next).is('.')) {
    ++next;
  }
  if (reading.Peek(next).is(Word::kRep)) return true;
  if (reading.Peek(next).is(Word::kTwice) || reading.Peek(next).is(Word::kThrice) ||
      reading.Peek(next).is(Word::kAcross) || reading.Peek(next).is('x') ||
      reading.Peek(next).is(Word::kTo)) {
    return next == ahead;
  }
  return reading.AtNumber(next) &&
         (reading.Peek(next + 1).is(Word::kTimes) || reading.Peek(next + 1).is('x') ||
          reading.Peek(next + 1).is('('));
}

bool Ends(const RowReading& reading, const Enclosure& in) {
  switch (in.type) {
    case Enclosure::Type::kRow:
      return reading.AtEnd();
    case Enclosure::Type::kBracket:
      return reading.at() == in.close;
    case Enclosure::Type::kStars:
      if (AtRepeatFrom(reading)) return true;
      return reading.Peek().is('*') && reading.Peek().number == in.stars &&
             AtAmountOrRepeat(reading, 1);
  }
  return false;
}

// Stitches of the row below that a group takes at least.
int64_t LeastTaken(const std::vector<TextStep>& steps, int size) {
  int64_t taken = 0;
  for (const TextStep& step : steps) {
    const int64_t count = step.count.Of(size);
    if (step.kind == Kind::kStitches || step.kind == Kind::kSkip || step.kind == Kind::kSkipSpace) {
      taken += count;
    } else if (step.kind == Kind::kGroup && count > 0) {
      taken += LeastTaken(step.inside, size);
    }
  }
  return taken;
}

// Makes one step of the steps since `start`, of which `open_ended` were open-ended before.
bool CloseGroup(RowReading& reading, size_t start, int open_ended, size_t token, Amount amount) {
  if (reading.open_ended != open_ended) {
    return reading.Fail(
        TextFindingCode::kUnreadable, token,
        "a number within a repeat (\"across\", \"in each st\" and \"to last N sts\" "
        "reach the row's end)");
  }
  TextStep group;
  group.kind = amount.until ? Kind::kUntil : Kind::kGroup;
  group.at = {reading.token(token).line, reading.token(token).column};
  group.count = std::move(amount.count);
  group.inside = reading.TakeSteps(start);
  if (group.inside.empty()) {
    return reading.Fail(TextFindingCode::kUnreadable, token, "a repeat with stitches in it");
  }
  if (amount.until) {
    ++reading.open_ended;
    for (int size = 0; size < reading.SizesHere(); ++size) {
      if (LeastTaken(group.inside, size) > 0) continue;
      return reading.Fail(TextFindingCode::kUnreadable, token,
                          "a repeat that takes stitches of the row below");
    }
  }
  return reading.AddStep(std::move(group));
}

bool CheckDepth(RowReading& reading, int depth) {
  if (depth < kDeepestReadNesting) return true;
  return reading.Fail(TextFindingCode::kTooMuch, reading.at(),
                      fmt::format("at most {} repeats within each other", kDeepestReadNesting));
}

bool ReadBracket(RowReading& reading, int depth) {
  const size_t open = reading.at();
  const size_t close = reading.PartnerOf(open);
  if (close == 0) return reading.FailHere("a bracket that is closed");
  reading.MoveTo(close + 1);
  Amount amount;
  const Match match = ReadAmount(reading, &amount);
  if (match == Match::kFailed) return false;
  const size_t behind = reading.at();
  if (match == Match::kNo) {
    if (IsRemark(reading, open)) return true;
    return reading.FailHere("how many times to work the bracket (\"N times\")");
  }
  if (amount.more) {
    return reading.Fail(TextFindingCode::kTwoReadings, close + 1,
                        "how many times to work the bracket in all (\"N times\")");
  }
  reading.MoveTo(open);
  if (!CheckDepth(reading, depth)) return false;
  reading.Pass();
  const size_t start = reading.steps().size();
  const int open_ended = reading.open_ended;
  ++reading.open_groups;
  if (!ReadList(reading, depth + 1, {Enclosure::Type::kBracket, close, 0})) return false;
  --reading.open_groups;
  reading.MoveTo(behind);
  return CloseGroup(reading, start, open_ended, open, std::move(amount));
}

// After "rep from *": how often. Whether "3 times" means three in all or three more is not settled
// in the trade.
bool ReadStarAmount(RowReading& reading, Amount* amount) {
  const size_t start = reading.at();
  const Match match = ReadAmount(reading, amount);
  if (match == Match::kFailed) return false;
  if (match == Match::kNo) {
    return reading.FailHere("\"across\", \"to last N sts\" or \"N more times\"");
  }
  if (amount->until || amount->in_all) return true;
  const bool once = !amount->count.is_list() && amount->count.Of(0) == 1;
  if (amount->plain_times && !once) {
    return reading.Fail(TextFindingCode::kTwoReadings, start,
                        "\"N more times\" or \"N times in all\" (\"N times\" can mean either)");
  }
  if (!amount->count.is_list()) {
    amount->count = SizedCount(amount->count.Of(0) + 1);
    return true;
  }
  std::vector<int> in_all = amount->count.list();
  for (int& times : in_all) ++times;
  amount->count = SizedCount(std::move(in_all));
  return true;
}

// "*ssc, sc 2; rep from * across", "*ssc, sc 2* 9 times".
bool ReadStars(RowReading& reading, int depth) {
  const size_t open = reading.at();
  const int stars = reading.Peek().number;
  if (!CheckDepth(reading, depth)) return false;
  reading.Pass();
  const size_t start = reading.steps().size();
  const int open_ended = reading.open_ended;
  ++reading.open_groups;
  if (!ReadList(reading, depth + 1, {Enclosure::Type::kStars, 0, stars})) return false;
  --reading.open_groups;
  const bool closed = reading.Take('*');
  if (closed) SkipSeparators(reading);
  Amount amount;
  if (!reading.Take(Word::kRep)) {
    // Between two asterisks, as in brackets.
    const Match match = ReadAmount(reading, &amount);
    if (match == Match::kFailed) return false;
    if (match == Match::kNo || amount.more)
      return reading.FailHere("\"N times\" or \"rep from *\"");
  } else {
    if (!reading.Take(Word::kFrom)) return reading.FailHere("\"from *\"");
    if (!reading.Peek().is('*') || reading.Peek().number != stars) {
      return reading.FailHere("the asterisk where the repeat begins");
    }
    reading.Pass();
    if (reading.Peek().is(Word::kTo) && reading.Peek(1).is('*')) {
      if (!closed) return reading.FailHere("a repeat whose end is marked");
      reading.Pass(2);
    }
    reading.Take(',');
    if (!ReadStarAmount(reading, &amount)) return false;
  }
  return CloseGroup(reading, start, open_ended, open, std::move(amount));
}

bool ReadStep(RowReading& reading, int depth) {
  if (reading.AtOpen()) return ReadBracket(reading, depth);
  if (reading.Peek().is('*')) return ReadStars(reading, depth);
  if (const Match mark = ReadMark(reading); mark != Match::kNo) return mark == Match::kYes;
  if (reading.AtStitch()) return ReadStitches(reading, std::nullopt);
  if (reading.Peek().is(Word::kCh)) return ReadChains(reading, std::nullopt);
  if (reading.Peek().is(Word::kSkip) || reading.Peek().is(Word::kMiss)) return ReadSkip(reading);
  // "work sc in each st"
  if (reading.Peek().is(Word::kWork) && (reading.AtStitch(1) || reading.AtNumber(1))) {
    reading.Pass();
    return ReadStep(reading, depth);
  }
  if (reading.Peek().is(Word::kStart)) {
    // "beginning in 2nd ch from hook, sc in each ch across"
    const bool in = reading.Peek(1).is(Word::kIn) || reading.Peek(1).is(Word::kWith);
    if (in && reading.fresh() && reading.Peek(2).kind == TokenKind::kOrdinal &&
        reading.Peek(2).number >= 2 && reading.Peek(2).number <= 9 &&
        reading.Peek(3).is(Word::kCh) && reading.Peek(4).is(Word::kFrom) &&
        reading.Peek(5).is(Word::kHook)) {
      reading.row().first_chain = reading.Peek(2).number;
      reading.Pass(6);
      return true;
    }
  }
  if (reading.AtNumber()) {
    SizedCount number;
    const size_t start = reading.at();
    if (!reading.ReadSized(&number)) return false;
    reading.Take('x');
    if (reading.AtStitch()) return ReadStitches(reading, std::move(number));
    if (reading.Peek().is(Word::kCh)) return ReadChains(reading, number);
    reading.MoveTo(start);
    return reading.FailHere("a number with its stitch (\"sc 3\", \"3 sc\")");
  }
  return reading.FailHere("a stitch, a bracket, an asterisk or the row's end");
}

bool EndsStep(const RowReading& reading) {
  const Token& next = reading.Peek();
  if (next.kind == TokenKind::kEnd) return true;
  if (next.kind == TokenKind::kMark) return next.mark != 'x' && next.mark != '?';
  return next.is(Word::kAnd) || next.is(Word::kThen) || next.is(Word::kRep) ||
         next.is(Word::kTurn) || next.is(Word::kDo) || next.is(Word::kNot) ||
         next.is(Word::kFasten) || next.is(Word::kFo) || next.is(Word::kJoin);
}

// "... across. 53 sc." or "..., sc 2. 53 sc.": a number of stitches that is the row's last
// sentence.
bool AtLooseCount(const RowReading& reading) {
  if (!reading.Before().is('.') || reading.fresh() || !reading.AtNumber()) return false;
  if (!reading.AtStitch(1)) return false;
  const Token& next = reading.Peek(2);
  return next.kind == TokenKind::kEnd || (next.is('.') && reading.Peek(3).kind == TokenKind::kEnd);
}

// It is the row's count if no stitch is left to be worked into; else it could be one more step.
bool ReadLooseCount(RowReading& reading) {
  const TextStep& last = reading.steps().back();
  const bool open_ended = last.kind == Kind::kUntil || last.kind == Kind::kFollow;
  if (!open_ended || last.count != SizedCount(0)) {
    return reading.Fail(TextFindingCode::kTwoReadings, reading.at(),
                        "a comma before a step, or brackets around the row's count");
  }
  StatedCount stated;
  stated.what = StatedCount::What::kOneKind;
  stated.at = reading.place();
  if (!reading.ReadSized(&stated.count) || !reading.ReadStitch(&stated.stitch)) return false;
  reading.row().stated.push_back(std::move(stated));
  return ReadRowEnd(reading);
}

bool ReadList(RowReading& reading, int depth, const Enclosure& in) {
  for (;;) {
    SkipSeparators(reading);
    const bool turned =
        in.type == Enclosure::Type::kRow && reading.row().has(RowMark::kTurn) && !reading.fresh();
    if (const size_t length = ShortStepLength(reading); length > 0 && !turned) {
      if (!ReadShortStep(reading, length)) return false;
      continue;
    }
    if (Ends(reading, in)) return true;
    if (reading.AtEnd()) {
      return reading.FailHere("\"rep from *\" for the asterisk before");
    }
    if (in.type == Enclosure::Type::kRow && AtClosingCount(reading)) return ReadRowEnd(reading);
    if (in.type == Enclosure::Type::kRow && AtLooseCount(reading)) return ReadLooseCount(reading);
    if (turned) return ReadRowEnd(reading);
    const size_t steps = reading.steps().size();
    if (!ReadStep(reading, depth)) return false;
    // Behind a remark or a start no comma is needed: "With B: sc 3".
    const bool parted =
        reading.steps().size() == steps && (reading.Before().is(')') || reading.Before().is(']') ||
                                            reading.Before().is('}') || reading.Before().is(':'));
    if (!parted && !Ends(reading, in) && !EndsStep(reading)) return reading.FailHere("a comma");
  }
}

}  // namespace

bool ReadSteps(RowReading& reading) {
  reading.MakeRoom();
  if (!ReadList(reading, 0, {})) return false;
  TextRow& row = reading.row();
  row.steps = reading.TakeSteps(0);
  row.body = TextRow::Body::kSteps;
  if (row.steps.empty()) return reading.FailHere("the stitches of the row");
  const int sizes = reading.SizesHere();
  for (int size = 0; size < sizes; ++size) {
    const int64_t elements = LeastElements(row.steps, size);
    if (elements <= chart::kMostStitches) continue;
    row.steps.clear();
    row.body = TextRow::Body::kUnread;
    return reading.Fail(TextFindingCode::kTooMuch, 0,
                        fmt::format("a row of at most {} stitches", chart::kMostStitches));
  }
  return true;
}

}  // namespace rowproof::rows
