#include "services/domain/rows/reading/reference.h"

#include "services/domain/rows/reading/amounts.h"
#include "services/domain/rows/reading/closing.h"
#include "services/domain/rows/reading/head.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

bool IsRowWord(const Token& token) {
  return token.is(Word::kRow) || token.is(Word::kRows) || token.is(Word::kRound) ||
         token.is(Word::kRounds) || token.is(Word::kR);
}

// Tokens of "rep", "as", "same as", "work as for"; 0 if no rows are named behind them.
size_t VerbLength(const RowReading& reading) {
  size_t i = 0;
  bool verb = false;
  while (reading.Peek(i).is(Word::kRep) || reading.Peek(i).is(Word::kWork) ||
         reading.Peek(i).is(Word::kSame) || reading.Peek(i).is(Word::kAs) ||
         reading.Peek(i).is(Word::kFor) || reading.Peek(i).is(Word::kThe)) {
    verb = true;
    ++i;
  }
  if (!verb) return 0;
  if (IsRowWord(reading.Peek(i))) return i;
  const bool relative = reading.Peek(i).is(Word::kLast) || reading.Peek(i).is(Word::kPrevious);
  const size_t number = reading.AtNumber(i + 1) ? 2 : 1;
  return relative && IsRowWord(reading.Peek(i + number)) ? i : 0;
}

// The rows first-back .. first-1, in every size.
NumberedRows RowsBefore(const SizedCount& first, int back) {
  const auto before = [](int row, int by) { return row == kNotWorked ? row : row - by; };
  if (!first.is_list()) {
    const int row = first.Of(0);
    return {SizedCount(before(row, back)), SizedCount(before(row, 1))};
  }
  std::vector<int> from;
  std::vector<int> to;
  for (const int row : first.list()) {
    from.push_back(before(row, back));
    to.push_back(before(row, 1));
  }
  return {SizedCount(std::move(from)), SizedCount(std::move(to))};
}

bool ReadRelative(RowReading& reading) {
  reading.Pass();
  int back = 1;
  if (reading.AtNumber() && !reading.ReadNumber(&back)) return false;
  if (back < 1 || back > chart::kMostRows) return reading.FailHere("a number of rows");
  reading.Pass();
  reading.row().sources.push_back(RowsBefore(reading.row().numbers.front().first, back));
  return true;
}

}  // namespace

bool AtReference(const RowReading& reading) { return VerbLength(reading) > 0; }

bool ReadReference(RowReading& reading) {
  TextRow& row = reading.row();
  reading.Pass(VerbLength(reading));
  if (reading.Peek().is(Word::kLast) || reading.Peek().is(Word::kPrevious)) {
    if (!ReadRelative(reading)) return false;
  } else {
    const bool several = reading.Peek().is(Word::kRows) || reading.Peek().is(Word::kRounds);
    reading.Pass();
    if (!ReadRowNumbers(reading, several, &row.sources)) return false;
  }
  reading.Take(',');
  const size_t start = reading.at();
  Amount amount;
  const Match match = ReadAmount(reading, &amount);
  if (match == Match::kFailed) return false;
  if (match == Match::kYes) {
    if (amount.until) {
      reading.MoveTo(start);
      return reading.FailHere("how many times to work the rows");
    }
    // "twice" and "twice more" are the same here: the line names the rows that it covers.
    row.times = std::move(amount.count);
    row.times_stated = true;
  }
  if (!ReadRowEnd(reading)) return false;
  row.body = TextRow::Body::kReference;
  return true;
}

}  // namespace rowproof::rows
