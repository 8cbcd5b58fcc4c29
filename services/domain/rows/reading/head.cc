#include "services/domain/rows/reading/head.h"

#include "fmt/format.h"
#include "services/domain/rows/reading/closing.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

struct Range {
  int first = kNotWorked;
  int last = kNotWorked;
};

// "7", "9-24", "9 to 24", "-" for a size without these rows.
bool ReadRange(RowReading& reading, bool several, Range* range) {
  if (reading.Take('-')) return true;
  const size_t start = reading.at();
  if (!reading.ReadNumber(&range->first)) return false;
  range->last = range->first;
  // "Row 7 - 3 sc": the dash of a single row parts head and body, unless it is written tight.
  const bool dash = reading.Peek().is('-') && (several || reading.Peek().glued);
  if ((!dash && !reading.Peek().is(Word::kTo)) || !reading.AtNumber(1)) return true;
  reading.Pass();
  if (!reading.ReadNumber(&range->last)) return false;
  if (range->last < range->first) {
    return reading.Fail(TextFindingCode::kUnreadable, start, "rows in ascending order");
  }
  if (range->last - range->first >= chart::kMostRows) {
    return reading.Fail(TextFindingCode::kTooMuch, start,
                        fmt::format("at most {} rows", chart::kMostRows));
  }
  return true;
}

bool ReadRangeList(RowReading& reading, bool several, NumberedRows* rows) {
  const size_t start = reading.at();
  Range range;
  if (!ReadRange(reading, several, &range)) return false;
  if (!reading.AtOpen() || !reading.IsListBracket(reading.at(), true)) {
    rows->first = SizedCount(range.first);
    rows->last = SizedCount(range.last);
    return true;
  }
  const size_t close = reading.PartnerOf(reading.at());
  std::vector<int> first = {range.first};
  std::vector<int> last = {range.last};
  for (reading.Pass(); reading.at() < close;) {
    Range other;
    if (!ReadRange(reading, true, &other)) return false;
    first.push_back(other.first);
    last.push_back(other.last);
    const bool parted = reading.Take(',') || reading.Take(';') || reading.Take('/');
    if (reading.at() < close && !parted) return reading.FailHere("a comma");
  }
  reading.Pass();
  if (static_cast<int>(first.size()) != reading.SizesHere()) {
    return reading.Fail(TextFindingCode::kWrongList, start,
                        fmt::format("the same row numbers for all sizes, or {}, one per size",
                                    reading.SizesHere()));
  }
  rows->first = SizedCount(reading.context().ByName(std::move(first)));
  rows->last = SizedCount(reading.context().ByName(std::move(last)));
  return true;
}

// The word that a row begins with, or "7th row".
bool ReadRowWord(RowReading& reading, bool* several, bool* numbered) {
  TextRow& row = reading.row();
  *numbered = false;
  if (reading.Peek().kind == TokenKind::kOrdinal) {
    row.numbers.push_back({SizedCount(reading.Peek().number), SizedCount(reading.Peek().number)});
    *numbered = true;
    reading.Pass();
  } else if (reading.Peek().is(Word::kNext)) {
    return reading.FailHere("a row with its number (\"Row 7\")");
  }
  const Token& word = reading.Peek();
  *several = word.is(Word::kRows) || word.is(Word::kRounds);
  row.round = word.is(Word::kRound) || word.is(Word::kRounds);
  if (!*several && !row.round && !word.is(Word::kRow) && !word.is(Word::kR)) return false;
  reading.Pass();
  return true;
}

bool IsSeparator(const Token& token) {
  return token.is(',') || token.is(';') || token.is('-') || token.is('/') || token.is(Word::kAnd);
}

// One label in a bracket or before the colon: a side, a colour, a count is none.
Match ReadLabel(RowReading& reading, bool in_bracket) {
  const size_t start = reading.at();
  chart::Side side = chart::Side::kRightSide;
  chart::Colour colour = chart::Colour::kA;
  const bool with =
      reading.Take(Word::kWith) || reading.Take(Word::kUsing) || reading.Take(Word::kIn);
  if (reading.ReadSide(&side) == Match::kYes) {
    return reading.StateSide(side, start) ? Match::kYes : Match::kFailed;
  }
  const bool named = reading.Take(Word::kColour) || reading.Take(Word::kYarn);
  if (reading.ReadColour(in_bracket || named, &colour) == Match::kYes) {
    return reading.StateColour(colour, start) ? Match::kYes : Match::kFailed;
  }
  if (with || named) {
    reading.Fail(TextFindingCode::kUnknownColour, reading.at(),
                 "a colour's letter (A to H) or its declared name");
    return Match::kFailed;
  }
  reading.MoveTo(start);
  return Match::kNo;
}

// "(RS, A)", "[RS]". A bracket of other words is a remark; a single other word would be a colour.
bool ReadLabelBracket(RowReading& reading) {
  const size_t open = reading.at();
  const size_t close = reading.PartnerOf(open);
  if (close == 0) return reading.FailHere("a bracket that is closed");
  reading.Pass();
  while (reading.at() < close) {
    const size_t start = reading.at();
    const Match match = ReadLabel(reading, true);
    if (match == Match::kFailed) return false;
    if (match == Match::kNo) {
      if (start == open + 1 && close - start > 2 && IsRemark(reading, open)) break;
      return reading.Fail(TextFindingCode::kUnknownColour, start,
                          "RS, WS, a colour's letter (A to H) or its declared name");
    }
    if (reading.at() < close && !IsSeparator(reading.Peek())) {
      return reading.FailHere("a comma or the closing bracket");
    }
    while (reading.at() < close && IsSeparator(reading.Peek())) reading.Pass();
  }
  reading.MoveTo(close + 1);
  return true;
}

// Whether a bracket holds a side or a colour and nothing else (for "Row 7: (RS, A) sc 3").
bool HoldsLabels(RowReading& reading) {
  const size_t open = reading.at();
  const size_t close = reading.PartnerOf(open);
  if (close == 0 || close - open > 12) return false;
  chart::Side side = chart::Side::kRightSide;
  chart::Colour colour = chart::Colour::kA;
  bool labels = close > open + 1;
  for (reading.Pass(); labels && reading.at() < close;) {
    if (IsSeparator(reading.Peek()) || reading.Peek().is(Word::kWith) ||
        reading.Peek().is(Word::kColour)) {
      reading.Pass();
      continue;
    }
    labels =
        reading.ReadSide(&side) == Match::kYes || reading.ReadColour(true, &colour) == Match::kYes;
  }
  labels = labels && reading.at() == close;
  reading.MoveTo(open);
  return labels;
}

bool ReadLabels(RowReading& reading, bool* any) {
  for (;;) {
    const size_t start = reading.at();
    if (reading.AtOpen()) {
      if (!ReadLabelBracket(reading)) return false;
      *any = true;
      continue;
    }
    while (reading.Peek().is(',') || (reading.Peek().is('-') && !reading.Peek(1).is('-'))) {
      reading.Pass();
    }
    const Match match = ReadLabel(reading, false);
    if (match == Match::kFailed) return false;
    if (match == Match::kNo) {
      if (!reading.AtOpen()) {
        reading.MoveTo(start);
        return true;
      }
      continue;
    }
    *any = true;
  }
}

}  // namespace

bool ReadRowNumbers(RowReading& reading, bool several, std::vector<NumberedRows>* numbers) {
  for (;;) {
    NumberedRows rows;
    if (!ReadRangeList(reading, several, &rows)) return false;
    numbers->push_back(std::move(rows));
    if (numbers->size() > chart::kMostRows) {
      return reading.Fail(TextFindingCode::kTooMuch, reading.at(),
                          fmt::format("at most {} rows", chart::kMostRows));
    }
    // "5, 9 and 13", "5, 9, and 13", "3 & 4"; "Row" may be repeated ("Row 5 and Row 9").
    size_t next = 0;
    if (reading.Peek(next).is(',')) ++next;
    if (reading.Peek(next).is(Word::kAnd) || reading.Peek(next).is('&')) ++next;
    if (next == 0) return true;
    if (reading.Peek(next).is(Word::kRow) || reading.Peek(next).is(Word::kRound) ||
        reading.Peek(next).is(Word::kRows) || reading.Peek(next).is(Word::kRounds)) {
      ++next;
    }
    if (!reading.AtNumber(next)) return true;
    // "Rows 3 and 4, 6 times": that number says how often.
    if (reading.Peek(next + 1).is(Word::kTimes) || reading.Peek(next + 1).is('x')) return true;
    reading.Pass(next);
  }
}

bool ReadHead(RowReading& reading) {
  bool several = false;
  bool numbered = false;
  if (!ReadRowWord(reading, &several, &numbered)) return false;
  if (!numbered) {
    if (!reading.AtNumber() && !reading.Peek().is('-')) return false;
    if (!ReadRowNumbers(reading, several, &reading.row().numbers)) return false;
  }
  bool labelled = false;
  if (!ReadLabels(reading, &labelled)) return false;
  if (reading.Take(':') || reading.Take('.') || reading.Take('-')) {
    reading.Take('-');
    while (reading.AtOpen() && HoldsLabels(reading)) {
      if (!ReadLabelBracket(reading)) return false;
      reading.Take(':') || reading.Take(',') || reading.Take('-');
    }
    return true;
  }
  if (labelled) return true;
  const Token& next = reading.Peek();
  // Prose that begins with a row's name is no row.
  if (next.kind == TokenKind::kWord && !reading.AtStitch() && !next.is(Word::kRep)) return false;
  return reading.FailHere("a colon after the row's number, side and colour");
}

}  // namespace rowproof::rows
