#include "services/domain/rows/reading/stitches.h"

#include "services/domain/rows/reading/amounts.h"
#include "services/domain/rows/reading/closing.h"
#include "services/domain/rows/reading/marks.h"

namespace rowproof::rows {
namespace {

using Kind = TextStep::Kind;

// What is known of a term so far.
struct Term {
  TextStitch stitch = TextStitch::kSingleCrochet;
  TextPlace at;
  size_t token = 0;
  std::optional<SizedCount> number;  // "3 sc", "sc 3"
  std::optional<SizedCount> places;  // "in next 3 sts"
  bool until = false;                // "across", "in each st"
  bool follow = false;               // "in each sc and dc"
  SizedCount left;
  bool from_hook = false;  // "in 2nd ch from hook"
};

TextStep StepOf(Kind kind, TextPlace at, SizedCount count) {
  TextStep step;
  step.kind = kind;
  step.at = at;
  step.count = std::move(count);
  return step;
}

// "BLO", "back loop only", "both loops".
bool TakeLoops(RowReading& reading) {
  if (reading.Take(Word::kBlo) || reading.Take(Word::kFlo)) return true;
  if ((reading.Peek().is(Word::kBack) || reading.Peek().is(Word::kFront) ||
       reading.Peek().is(Word::kBoth)) &&
      reading.Peek(1).is(Word::kLoop)) {
    reading.Pass(2);
    reading.Take(Word::kOnly);
    return true;
  }
  return false;
}

// "2 rows below", "below", "of the previous row", "from 2 rows below".
void TakeWhichRow(RowReading& reading) {
  for (;;) {
    const size_t start = reading.at();
    reading.Take(Word::kOf) || reading.Take(Word::kFrom) || reading.Take(Word::kIn);
    reading.Take(Word::kThe);
    if (reading.Peek().is(Word::kPrevious) &&
        (reading.Peek(1).is(Word::kRow) || reading.Peek(1).is(Word::kRound))) {
      reading.Pass(2);
      continue;
    }
    if (reading.AtNumber()) reading.Pass();
    const bool rows = reading.Take(Word::kRow) || reading.Take(Word::kRows) ||
                      reading.Take(Word::kRound) || reading.Take(Word::kRounds);
    if ((rows || reading.at() == start) && reading.Take(Word::kBelow)) continue;
    reading.MoveTo(start);
    return;
  }
}

bool AtRowsBelow(const RowReading& reading) {
  const Token& rows = reading.Peek(1);
  return (rows.is(Word::kRow) || rows.is(Word::kRows) || rows.is(Word::kRound) ||
          rows.is(Word::kRounds)) &&
         reading.Peek(2).is(Word::kBelow);
}

// "next 3 sts", "next st", "3 sts", "first 2 sts", "last st".
bool ReadPlaces(RowReading& reading, Term& term) {
  if (!reading.AtNumber()) {
    term.places = SizedCount(1);
    return reading.TakeNoun() || reading.FailHere("the stitches that are worked into (\"sts\")");
  }
  SizedCount places;
  if (!reading.ReadSized(&places)) return false;
  term.places = std::move(places);
  if (reading.SpaceLength() > 0) return reading.FailHere("stitches of the row below (\"sts\")");
  reading.TakeNoun();
  return true;
}

bool ReadUntilEnd(RowReading& reading, Term& term) {
  term.until = true;
  const Match until = ReadUntil(reading, &term.left);
  return until != Match::kFailed;
}

// After "in each": "st across", "of next 3 sts", "sc and dc to last 2 sts".
bool ReadEach(RowReading& reading, Term& term) {
  if (reading.Take(Word::kOf)) reading.Take(Word::kThe);
  if (reading.Peek().is(Word::kNext) || reading.AtNumber()) {
    reading.Take(Word::kNext);
    return ReadPlaces(reading, term);
  }
  if (!reading.Take(Word::kRemaining)) reading.Take(Word::kOf);
  const bool named = reading.Peek().kind == TokenKind::kWord && IsStitchWord(reading.Peek().word);
  if (!reading.TakeNoun()) {
    return reading.FailHere("the stitches that are worked into (\"st\", \"of next N sts\")");
  }
  if (named) {
    term.follow = true;
    for (;;) {
      const size_t parted =
          reading.Peek().is(Word::kAnd) || reading.Peek().is('/') || reading.Peek().is('&') ? 1 : 0;
      const Token& other = reading.Peek(parted);
      if (parted == 0 || other.kind != TokenKind::kWord || !IsStitchWord(other.word)) break;
      reading.Pass(2);
    }
  }
  TakeWhichRow(reading);
  return ReadUntilEnd(reading, term);
}

// "2nd ch from hook", after "in".
bool ReadFromHook(RowReading& reading, Term& term) {
  const int chain = reading.Peek().number;
  if (!reading.fresh() || chain < 2 || chain > 9 || !reading.Peek(1).is(Word::kCh) ||
      !reading.Peek(2).is(Word::kFrom)) {
    return reading.FailHere("\"2nd ch from hook\" where the first row begins, or \"next N sts\"");
  }
  reading.Pass(3);
  reading.Take(Word::kThe);
  if (!reading.Take(Word::kHook)) return reading.FailHere("\"hook\"");
  reading.row().first_chain = chain;
  term.from_hook = true;
  term.places = SizedCount(1);
  return true;
}

// After "in" or "into".
bool ReadInto(RowReading& reading, Term& term) {
  reading.Take(Word::kThe);
  if (TakeLoops(reading)) {
    const bool of = reading.Take(Word::kOf);
    reading.Take(Word::kThe);
    const Token& next = reading.Peek();
    const bool more = next.is(Word::kEach) || next.is(Word::kNext) || next.is(Word::kFirst) ||
                      next.is(Word::kLast) || next.is(Word::kRemaining) || of;
    if (!more) return true;
  }
  if (reading.Peek().kind == TokenKind::kOrdinal) return ReadFromHook(reading, term);
  if (reading.Take(Word::kEach) || reading.Take(Word::kAll)) return ReadEach(reading, term);
  if (reading.Take(Word::kNext) || reading.Take(Word::kFirst) || reading.Take(Word::kLast)) {
    return ReadPlaces(reading, term);
  }
  if (reading.Peek().is(Word::kRemaining)) return ReadEach(reading, term);
  if (reading.Peek().is(Word::kSame)) {
    if (!reading.fresh()) {
      return reading.FailHere("the next stitch (each stitch goes into one of its own)");
    }
    reading.Pass();
    term.places = SizedCount(1);
    return reading.TakeNoun() || reading.FailHere("\"st\"");
  }
  if (reading.AtNumber() || reading.NounLength() > 0) return ReadPlaces(reading, term);
  return reading.FailHere("\"next N sts\" or \"each st across\"");
}

// Reads from a stitch to the next comma; false with an error. `*done`: nothing more.
bool ReadQualifier(RowReading& reading, Term& term, bool* done) {
  *done = false;
  if (reading.AtNumber() && AtRowsBelow(reading)) {
    reading.Pass(3);
    return true;
  }
  const bool times_sign = reading.Peek().is('x') && reading.AtNumber(1);
  if ((reading.AtNumber() || times_sign) && !term.number.has_value() && !term.places.has_value() &&
      !term.until) {
    if (times_sign) reading.Pass();
    SizedCount number;
    if (!reading.ReadSized(&number)) return false;
    term.number = std::move(number);
    if (!reading.Take(Word::kTimes)) reading.Take(Word::kSt);
    return true;
  }
  if (TakeLoops(reading) || reading.Take(Word::kBelow)) return true;
  const bool placed = term.places.has_value() || term.until;
  if (reading.AtOpen() && reading.PartnerOf(reading.at()) > 0) {
    const size_t open = reading.at();
    reading.Pass();
    reading.Take(Word::kIn);
    if (TakeLoops(reading) && reading.at() == reading.PartnerOf(open)) {
      reading.Pass();
      return true;
    }
    reading.MoveTo(open);
  } else if ((reading.Peek().is(Word::kIn) || reading.Peek().is(Word::kInto) ||
              reading.Peek().is(Word::kOver)) &&
             !placed) {
    reading.Pass();
    if (!ReadInto(reading, term)) return false;
    TakeWhichRow(reading);
    return true;
  } else if (!placed) {
    const size_t start = reading.at();
    const Match until = ReadUntil(reading, &term.left);
    if (until == Match::kFailed) return false;
    term.until = until == Match::kYes;
    if (reading.at() != start) return true;
  } else if (reading.Peek().is(Word::kIn)) {
    const size_t start = reading.at();
    reading.Pass();
    if (TakeLoops(reading)) return true;
    reading.MoveTo(start);
  }
  *done = true;
  return true;
}

bool IsOne(const SizedCount& count) { return !count.is_list() && count.Of(0) == 1; }

// "3 sc in next 3 sts" says it twice; "3 sc in next st" is an increase.
bool CountOf(RowReading& reading, const Term& term, SizedCount* count) {
  const bool numbered = term.number.has_value();
  if (!term.places.has_value()) {
    *count = numbered ? *term.number : SizedCount(1);
    return true;
  }
  *count = *term.places;
  if (!numbered || IsOne(*term.number) || *term.number == *term.places) return true;
  return reading.Fail(TextFindingCode::kTwoReadings, term.token,
                      "as many stitches as there are stitches to work into");
}

// "ch 3 over each ch-sp", "ch 3 and sk each ch-sp" behind "sc in each st".
bool ReadChainClause(RowReading& reading, TextStep& follow, bool* found) {
  *found = false;
  const size_t start = reading.at();
  SkipSeparators(reading);
  const TextPlace at = reading.place();
  SizedCount chains(0);
  if (reading.at() == start || !reading.Take(Word::kCh)) {
    reading.MoveTo(start);
    return true;
  }
  if (reading.AtNumber() && !reading.ReadSized(&chains)) return false;
  SkipSeparators(reading);
  const size_t verb = reading.at();
  if (reading.Take(Word::kSkip) || reading.Take(Word::kMiss)) reading.NoteTerms(verb);
  reading.Take(Word::kOver);
  reading.Take(Word::kThe);
  const bool each = reading.at() > verb && reading.Take(Word::kEach);
  if (each) reading.Take(Word::kOf);
  const size_t space = reading.SpaceLength();
  if (!each || space == 0) {
    reading.MoveTo(start);
    return true;
  }
  reading.Pass(space);
  SizedCount left;
  const Match until = ReadUntil(reading, &left);
  if (until == Match::kFailed) return false;
  if (until == Match::kYes) follow.count = left;
  follow.inside.push_back(StepOf(Kind::kChains, at, std::move(chains)));
  *found = true;
  return true;
}

bool AddUntil(RowReading& reading, const Term& term) {
  if (term.number.has_value() && !IsOne(*term.number)) {
    return reading.Fail(TextFindingCode::kTwoReadings, term.token,
                        "a number of stitches, or \"in each st\", not both");
  }
  ++reading.open_ended;
  TextStep step = StepOf(term.follow ? Kind::kFollow : Kind::kUntil, term.at, term.left);
  step.stitch = term.stitch;
  bool found = false;
  if (!ReadChainClause(reading, step, &found)) return false;
  if (found) step.kind = Kind::kFollow;
  if (step.kind == Kind::kUntil) {
    TextStep one = StepOf(Kind::kStitches, term.at, SizedCount(1));
    one.stitch = term.stitch;
    step.inside.push_back(std::move(one));
  }
  return reading.AddStep(std::move(step));
}

// "and in each ch across" continues with the same stitch after "sc in 2nd ch from hook".
bool GoOnInto(RowReading& reading, const Term& term) {
  if (!reading.Peek().is(Word::kAnd) || !reading.Peek(1).is(Word::kIn)) return true;
  Term more;
  more.stitch = term.stitch;
  more.at = reading.place();
  more.token = reading.at();
  reading.Pass(2);
  if (!ReadInto(reading, more)) return false;
  if (more.until) return AddUntil(reading, more);
  SizedCount count;
  if (!CountOf(reading, more, &count)) return false;
  TextStep step = StepOf(Kind::kStitches, more.at, std::move(count));
  step.stitch = more.stitch;
  return reading.AddStep(std::move(step));
}

}  // namespace

bool ReadStitches(RowReading& reading, std::optional<SizedCount> before) {
  Term term;
  term.at = reading.place();
  term.token = reading.at();
  term.number = std::move(before);
  if (!reading.ReadStitch(&term.stitch)) return false;
  for (bool done = false; !done;) {
    if (!ReadQualifier(reading, term, &done)) return false;
  }
  if (term.until) return AddUntil(reading, term);
  SizedCount count;
  if (!CountOf(reading, term, &count)) return false;
  TextStep step = StepOf(Kind::kStitches, term.at, std::move(count));
  step.stitch = term.stitch;
  if (!reading.AddStep(std::move(step))) return false;
  return GoOnInto(reading, term);
}

size_t ShortStepLength(const RowReading& reading) {
  const Token& stitch = reading.Peek();
  if (stitch.kind != TokenKind::kWord || !IsStitchWord(stitch.word) || stitch.is(Word::kSs)) {
    return 0;
  }
  const size_t length = reading.AtNumber(1) ? 2 : 1;
  if (length == 2 && reading.Peek(1).number > kLargestNumber) return 0;
  const Token& behind = reading.Peek(length);
  const bool over = behind.kind == TokenKind::kEnd || behind.is(',') || behind.is(';') ||
                    behind.is('.') || behind.is(')') || behind.is(']') || behind.is('}');
  return over ? length : 0;
}

bool ReadShortStep(RowReading& reading, size_t length) {
  const TextPlace at = reading.place();
  const int count = length == 2 ? reading.Peek(1).number : 1;
  TextStitch stitch = TextStitch::kSingleCrochet;
  if (!reading.ReadStitch(&stitch)) return false;
  reading.Pass(length - 1);
  return reading.AddStitches(stitch, at, count);
}

bool ReadChains(RowReading& reading, const std::optional<SizedCount>& before) {
  const TextPlace at = reading.place();
  const size_t token = reading.at();
  if (reading.SpaceLength() > 0) return reading.FailHere("a stitch, chains or a skip");
  reading.Pass();
  SizedCount count = before.value_or(SizedCount(1));
  if (!before.has_value()) {
    if (reading.Peek().is('-') && reading.AtNumber(1)) reading.Pass();
    if (reading.AtNumber() && !reading.ReadSized(&count)) return false;
  }
  const bool starts = reading.fresh();
  const Match not_counted = ReadNotCounted(reading);
  if (not_counted == Match::kFailed) return false;
  size_t next = 0;
  while (reading.Peek(next).is(',') || reading.Peek(next).is(Word::kAnd)) ++next;
  const bool skips = reading.Peek(next).is(Word::kSkip) || reading.Peek(next).is(Word::kMiss);
  if (not_counted == Match::kYes || (starts && !skips) || reading.Peek(next).is(Word::kTurn)) {
    if (not_counted == Match::kNo && !IsOne(count)) {
      return reading.Fail(TextFindingCode::kTwoReadings, token,
                          "ch 1, or \"(does not count as a st)\" after the chains");
    }
    if (starts) {
      reading.row().marks = static_cast<uint16_t>(reading.row().marks |
                                                  static_cast<uint16_t>(RowMark::kChainAtStart));
    }
    return true;
  }
  if (!reading.AddStep(StepOf(Kind::kChains, at, std::move(count)))) return false;
  if (!reading.Take(Word::kOver)) return true;
  reading.Take(Word::kThe);
  reading.Take(Word::kNext);
  if (const size_t space = reading.SpaceLength(); space > 0) {
    reading.Pass(space);
    return reading.AddStep(StepOf(Kind::kSkipSpace, at, SizedCount(1)));
  }
  Term term;
  if (!ReadPlaces(reading, term)) return false;
  return reading.AddStep(StepOf(Kind::kSkip, at, *term.places));
}

bool ReadSkip(RowReading& reading) {
  const TextPlace at = reading.place();
  reading.NoteTerms(reading.at());
  reading.Pass();
  reading.Take(Word::kOver);
  reading.Take(Word::kThe);
  const bool next = reading.Take(Word::kNext) || reading.Take(Word::kFirst);
  if (const size_t space = reading.SpaceLength(); space > 0) {
    reading.Pass(space);
    return reading.AddStep(StepOf(Kind::kSkipSpace, at, SizedCount(1)));
  }
  SizedCount count(1);
  const size_t number = reading.at();
  if (reading.AtNumber()) {
    if (!reading.ReadSized(&count)) return false;
    if (const size_t space = reading.SpaceLength(); space > 0) {
      if (!IsOne(count)) return reading.Fail(TextFindingCode::kUnreadable, number, "one ch-sp");
      reading.Pass(space);
      return reading.AddStep(StepOf(Kind::kSkipSpace, at, SizedCount(1)));
    }
  } else if (reading.NounLength() == 0) {
    return reading.FailHere("a number of stitches, or \"ch-sp\"");
  }
  const bool chain = reading.Peek().is(Word::kCh);
  reading.TakeNoun();
  if (chain && reading.fresh() && !count.is_list() && count.Of(0) < 9) {
    reading.row().first_chain = count.Of(0) + 1;
    return true;
  }
  // The stitch behind a drop is covered by it: that is part of the drop, not a skip.
  if (!next && reading.Peek().is(Word::kBehind)) {
    reading.Pass();
    reading.Take(Word::kThe);
    reading.TakeNoun();
    return true;
  }
  return reading.AddStep(StepOf(Kind::kSkip, at, std::move(count)));
}

}  // namespace rowproof::rows
