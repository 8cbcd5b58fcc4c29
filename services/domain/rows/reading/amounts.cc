#include "services/domain/rows/reading/amounts.h"

namespace rowproof::rows {
namespace {

Match Of(bool read) { return read ? Match::kYes : Match::kFailed; }

// "end", "end of row", "the end of the rnd".
bool TakeEnd(RowReading& reading) {
  reading.Take(Word::kThe);
  if (!reading.Take(Word::kEnd)) return false;
  if (reading.Peek().is(Word::kOf)) {
    const size_t the = reading.Peek(1).is(Word::kThe) ? 2 : 1;
    if (reading.Peek(the).is(Word::kRow) || reading.Peek(the).is(Word::kRound)) {
      reading.Pass(the + 1);
    }
  }
  return true;
}

// "last 2 sts", "last st", after "to" or "until".
Match ReadLastStitches(RowReading& reading, SizedCount* left) {
  reading.Take(Word::kThe);
  if (!reading.Take(Word::kLast)) return Match::kNo;
  if (!reading.AtNumber()) {
    *left = SizedCount(1);
    return reading.TakeNoun() ? Match::kYes : Of(reading.FailHere("a number of stitches"));
  }
  if (!reading.ReadSized(left)) return Match::kFailed;
  reading.TakeNoun();
  return Match::kYes;
}

// "N sts remain", "N sts are left", "N rem sts", after "until".
Match ReadRemaining(RowReading& reading, SizedCount* left) {
  reading.Take(Word::kThe);
  if (!reading.AtNumber()) return Of(reading.FailHere("\"the last N sts\" or \"N sts remain\""));
  if (!reading.ReadSized(left)) return Match::kFailed;
  reading.Take(Word::kRemaining);
  reading.TakeNoun();
  reading.Take(Word::kRemark);
  if (!reading.Take(Word::kRemaining)) reading.Take(Word::kLeft);
  return Match::kYes;
}

// After "12 (16, 20) times".
Match ReadAfterTimes(RowReading& reading, Amount* amount) {
  if (reading.Take(Word::kMore)) {
    amount->more = true;
  } else if ((reading.Peek().is(Word::kIn) &&
              (reading.Peek(1).is(Word::kAll) || reading.Peek(1).is(Word::kTotal)))) {
    reading.Pass(2);
    amount->in_all = true;
  } else if (reading.Take(Word::kTotal)) {
    amount->in_all = true;
  } else {
    amount->plain_times = !amount->more;
  }
  return Match::kYes;
}

Match ReadTimes(RowReading& reading, Amount* amount) {
  if (!reading.ReadSized(&amount->count)) return Match::kFailed;
  if (reading.Take(Word::kMore)) amount->more = true;
  if (!reading.Take(Word::kTimes) && !reading.Take('x')) {
    return Of(reading.FailHere("\"times\""));
  }
  return ReadAfterTimes(reading, amount);
}

// Whether a number with its list is followed by "times", "more times" or a times sign.
bool AtTimes(const RowReading& reading) {
  if (!reading.AtNumber()) return false;
  size_t next = 1;
  const size_t open = reading.at() + 1;
  if (reading.Peek(1).is('(') || reading.Peek(1).is('[')) {
    if (!reading.IsListBracket(open, false)) return false;
    next = reading.PartnerOf(open) + 1 - reading.at();
  }
  if (reading.Peek(next).is(Word::kMore)) ++next;
  return reading.Peek(next).is(Word::kTimes) || reading.Peek(next).is('x');
}

}  // namespace

Match ReadUntil(RowReading& reading, SizedCount* left) {
  const size_t start = reading.at();
  *left = SizedCount(0);
  const bool across = reading.Take(Word::kAcross) || reading.Take(Word::kAround);
  if (reading.Peek().is(Word::kTo) || reading.Peek().is(Word::kUntil)) {
    const bool until = reading.Peek().is(Word::kUntil);
    reading.Pass();
    if (TakeEnd(reading)) return Match::kYes;
    const Match last = ReadLastStitches(reading, left);
    if (last != Match::kNo) return last;
    if (until) return ReadRemaining(reading, left);
    reading.MoveTo(across ? start + 1 : start);
  }
  return across ? Match::kYes : Match::kNo;
}

Match ReadAmount(RowReading& reading, Amount* amount) {
  const Match until = ReadUntil(reading, &amount->count);
  if (until != Match::kNo) {
    amount->until = true;
    return until;
  }
  // "a total of 12 times", "for a total of 12 times".
  size_t total = reading.Peek().is(Word::kFor) ? 1 : 0;
  if (reading.Peek(total).is(Word::kA)) ++total;
  if (reading.Peek(total).is(Word::kTotal) && reading.Peek(total + 1).is(Word::kOf)) {
    reading.Pass(total + 2);
    amount->in_all = true;
    if (!reading.ReadSized(&amount->count)) return Match::kFailed;
    return reading.Take(Word::kTimes) ? Match::kYes : Of(reading.FailHere("\"times\""));
  }
  int words = 0;
  if (reading.Peek().is(Word::kOnce)) words = 1;
  if (reading.Peek().is(Word::kTwice)) words = 2;
  if (reading.Peek().is(Word::kThrice)) words = 3;
  if (words > 0) {
    reading.Pass();
    amount->count = SizedCount(words);
    return ReadAfterTimes(reading, amount);
  }
  if (reading.Peek().is('x') && reading.AtNumber(1)) {
    reading.Pass();
    if (!reading.ReadSized(&amount->count)) return Match::kFailed;
    reading.Take(Word::kTimes);
    return ReadAfterTimes(reading, amount);
  }
  return AtTimes(reading) ? ReadTimes(reading, amount) : Match::kNo;
}

}  // namespace rowproof::rows
