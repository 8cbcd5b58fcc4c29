#include "services/domain/rows/reading/closing.h"

#include "services/domain/rows/reading/marks.h"

namespace rowproof::rows {
namespace {

// What a stated count counts: its tokens, 0 if there is none.
size_t CountedLength(const RowReading& reading, size_t at) {
  const size_t ahead = at - reading.at();
  if (reading.token(at).is(Word::kSt)) return 1;
  if (const size_t space = reading.SpaceLength(ahead); space > 0) return space;
  const Token& token = reading.token(at);
  return token.kind == TokenKind::kWord && IsStitchWord(token.word) ? 1 : 0;
}

// Passes "53 (69, 85)" at a number; the token behind it.
size_t BehindSized(const RowReading& reading, size_t at) {
  const size_t open = at + 1;
  const Token& next = reading.token(open);
  if ((next.is('(') || next.is('[')) && reading.IsListBracket(open, false)) {
    return reading.PartnerOf(open) + 1;
  }
  return open;
}

// "53 sts, 12 ch-sps" from a token up to `end`; whether stitches or spaces are among it.
bool IsCountList(const RowReading& reading, size_t at, size_t end, bool* plain) {
  if (reading.token(at).is(Word::kTotal)) ++at;
  if (reading.token(at).is(':') || reading.token(at).is(Word::kOf)) ++at;
  bool any = false;
  while (at < end) {
    if (reading.token(at).kind != TokenKind::kNumber) return false;
    at = BehindSized(reading, at);
    const size_t counted = at < end ? CountedLength(reading, at) : 0;
    if (counted == 0) return false;
    *plain |= reading.token(at).is(Word::kSt) || counted > 1;
    any = true;
    at += counted;
    while (at < end && (reading.token(at).is(',') || reading.token(at).is(';') ||
                        reading.token(at).is('.') || reading.token(at).is('&') ||
                        reading.token(at).is(Word::kAnd) || reading.token(at).is(Word::kTotal))) {
      ++at;
    }
  }
  return any;
}

bool IsBareCount(const RowReading& reading, size_t at, size_t end) {
  if (reading.token(at).kind != TokenKind::kNumber) return false;
  return BehindSized(reading, at) == end;
}

bool EndsSentence(const Token& token) { return token.is('.') || token.is('-') || token.is('='); }

bool ReadStated(RowReading& reading) {
  StatedCount stated;
  stated.at = reading.place();
  const size_t start = reading.at();
  if (!reading.ReadSized(&stated.count)) return false;
  if (const size_t space = reading.SpaceLength(); space > 0) {
    stated.what = StatedCount::What::kChainSpaces;
    reading.Pass(space);
  } else if (reading.AtStitch()) {
    stated.what = StatedCount::What::kOneKind;
    if (!reading.ReadStitch(&stated.stitch)) return false;
  } else {
    reading.Take(Word::kSt);
  }
  for (const StatedCount& other : reading.row().stated) {
    if (other.what != stated.what || other.stitch != stated.stitch) continue;
    if (other.count == stated.count) return true;
    return reading.Fail(TextFindingCode::kContradiction, start, "the count stated before");
  }
  reading.row().stated.push_back(std::move(stated));
  return true;
}

}  // namespace

void SkipSeparators(RowReading& reading) {
  for (;; reading.Pass()) {
    const Token& next = reading.Peek();
    const bool mark = next.is(',') || next.is(';') || next.is('.') || next.is('-') || next.is('&');
    if (!mark && !next.is(Word::kAnd) && !next.is(Word::kThen)) return;
  }
}

bool IsRemark(const RowReading& reading, size_t open) {
  const size_t close = reading.PartnerOf(open);
  bool words = false;
  bool prose = false;
  bool steps = false;
  for (size_t i = open + 1; i < close; ++i) {
    const Token& token = reading.token(i);
    steps |= token.is('*') || token.is('[') || token.is('{');
    if (token.kind != TokenKind::kWord) continue;
    words = true;
    prose |= token.is(Word::kRemark) || token.is(Word::kNot) || token.is(Word::kCount);
    steps |= IsStitchWord(token.word) || token.is(Word::kCh) || token.is(Word::kSkip) ||
             token.is(Word::kMiss) || token.is(Word::kRep) || token.is(Word::kSl) ||
             token.is(Word::kSingle) || token.is(Word::kDouble) || token.is(Word::kTreble);
  }
  return words && (prose || !steps);
}

bool AtClosingCount(const RowReading& reading) {
  const size_t at = reading.at();
  if (reading.AtOpen()) {
    const size_t close = reading.PartnerOf(at);
    if (close <= at + 1) return false;
    bool plain = false;
    const bool after_sentence = at > 0 && EndsSentence(reading.token(at - 1));
    if (IsCountList(reading, at + 1, close, &plain)) return plain || after_sentence;
    return after_sentence && IsBareCount(reading, at + 1, close);
  }
  size_t number = at;
  if (reading.token(number).is('=')) ++number;
  if (reading.token(number).is(Word::kTotal)) ++number;
  if (reading.token(number).is(':') || reading.token(number).is(Word::kOf)) ++number;
  if (reading.token(number).kind != TokenKind::kNumber) return false;
  const size_t behind = BehindSized(reading, number);
  return reading.token(behind).is(Word::kSt);
}

bool ReadClosingCount(RowReading& reading) {
  const bool bracket = reading.AtOpen();
  const size_t close = bracket ? reading.PartnerOf(reading.at()) : 0;
  if (bracket) reading.Pass();
  do {
    reading.Take('=');
    reading.Take(Word::kTotal);
    if (!reading.Take(':')) reading.Take(Word::kOf);
    if (!ReadStated(reading)) return false;
    if (bracket) {
      SkipSeparators(reading);
      reading.Take(Word::kTotal);
    }
  } while (bracket && reading.at() < close);
  if (bracket) {
    if (reading.at() != close) return reading.FailHere("the closing bracket");
    reading.Pass();
  }
  return true;
}

bool ReadRowEnd(RowReading& reading) {
  for (;;) {
    SkipSeparators(reading);
    if (reading.AtEnd()) return true;
    if (AtClosingCount(reading)) {
      if (!ReadClosingCount(reading)) return false;
      continue;
    }
    if (reading.AtOpen() && reading.PartnerOf(reading.at()) > 0 &&
        IsRemark(reading, reading.at())) {
      reading.MoveTo(reading.PartnerOf(reading.at()) + 1);
      continue;
    }
    if (reading.Peek().is(Word::kCh) && reading.row().has(RowMark::kTurn)) {
      reading.Pass();
      if (reading.AtNumber()) reading.Pass();
      if (ReadNotCounted(reading) == Match::kFailed) return false;
      continue;
    }
    const size_t steps = reading.steps().size();
    const Match mark = ReadMark(reading);
    if (mark == Match::kFailed) return false;
    if (mark == Match::kNo || reading.steps().size() != steps) {
      return reading.FailHere("the end of the row");
    }
  }
}

}  // namespace rowproof::rows
