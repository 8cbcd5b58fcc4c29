#include "services/domain/rows/reading/marks.h"

#include "services/domain/rows/reading/closing.h"
#include "services/domain/rows/reading/stitches.h"

namespace rowproof::rows {
namespace {

void SetMark(RowReading& reading, RowMark mark) {
  reading.row().marks = static_cast<uint16_t>(reading.row().marks | static_cast<uint16_t>(mark));
}

Match Of(bool read) { return read ? Match::kYes : Match::kFailed; }

Match ReadTurn(RowReading& reading) {
  if (reading.Take(Word::kTurn)) {
    SetMark(reading, RowMark::kTurn);
    return Match::kYes;
  }
  const size_t start = reading.at();
  reading.Take(Word::kDo);
  if (reading.Take(Word::kNot) && reading.Take(Word::kTurn)) {
    SetMark(reading, RowMark::kNoTurn);
    return Match::kYes;
  }
  reading.MoveTo(start);
  return Match::kNo;
}

// "fasten off", "fo", "fasten off A".
Match ReadFastenOff(RowReading& reading) {
  if (!reading.Take(Word::kFo)) {
    if (!reading.Peek().is(Word::kFasten) || !reading.Peek(1).is(Word::kOff)) return Match::kNo;
    reading.Pass(2);
  }
  chart::Colour colour = chart::Colour::kA;
  if (!reading.Take(Word::kYarn)) {
    reading.Take(Word::kColour);
    reading.ReadColour(false, &colour);
  }
  SetMark(reading, RowMark::kFastenOff);
  return Match::kYes;
}

// "changing to B in last st", "cut yarn": words up to the next comma or full stop.
Match ReadAside(RowReading& reading) {
  if (!reading.Peek().is(Word::kChange)) return Match::kNo;
  while (!reading.AtEnd() && !reading.Peek().is(',') && !reading.Peek().is('.') &&
         !reading.Peek().is(';') && !reading.AtOpen() && !reading.AtClose()) {
    if (reading.AtNumber() || reading.Peek().is('*') || reading.AtStitch()) {
      return Of(reading.FailHere("a comma or a full stop"));
    }
    reading.Pass();
  }
  return Match::kYes;
}

// "with B", "with RS facing".
Match ReadWith(RowReading& reading) {
  const size_t start = reading.at();
  if (!reading.Take(Word::kWith) && !reading.Take(Word::kUsing)) return Match::kNo;
  chart::Side side = chart::Side::kRightSide;
  if (reading.ReadSide(&side) == Match::kYes) return Of(reading.StateSide(side, start));
  reading.Take(Word::kColour) || reading.Take(Word::kYarn);
  chart::Colour colour = chart::Colour::kA;
  if (reading.ReadColour(false, &colour) != Match::kYes) {
    reading.Fail(TextFindingCode::kUnknownColour, reading.at(),
                 "a colour's letter (A to H) or its declared name");
    return Match::kFailed;
  }
  if (!reading.fresh()) {
    reading.MoveTo(start);
    return Of(reading.FailHere("a stitch (name the row's one colour where it begins)"));
  }
  if (!reading.StateColour(colour, start)) return Match::kFailed;
  reading.Take(':');
  return Match::kYes;
}

// "first st", "to first st of row", "in first sc", "to beg st", "in same st" after a joining.
void TakeJoiningPlace(RowReading& reading) {
  const size_t start = reading.at();
  if (!reading.Take(Word::kIn) && !reading.Take(Word::kInto) && !reading.Take(Word::kTo)) return;
  reading.Take(Word::kThe);
  if (reading.Take(Word::kJoin)) return;  // "to join"
  if (reading.Take(Word::kBlo) || reading.Take(Word::kFlo)) {
    reading.Take(Word::kOf);
    reading.Take(Word::kThe);
  }
  const bool first = reading.Take(Word::kFirst) || reading.Take(Word::kStart);
  if (first && reading.TakeNoun()) {
    if (reading.Peek().is(Word::kOf)) {
      const size_t the = reading.Peek(1).is(Word::kThe) ? 2 : 1;
      if (reading.Peek(the).is(Word::kRow) || reading.Peek(the).is(Word::kRound)) {
        reading.Pass(the + 1);
      }
    }
    if (reading.Peek().is(Word::kTo) && reading.Peek(1).is(Word::kJoin)) reading.Pass(2);
    return;
  }
  reading.MoveTo(start);
}

// The joining stitch after "join B with": a slip stitch is not counted, any other is the first.
Match ReadJoiningStitch(RowReading& reading, bool start) {
  reading.Take(Word::kA);
  const TextPlace at = reading.place();
  const size_t token = reading.at();
  reading.Take(Word::kStanding);
  TextStitch stitch = TextStitch::kSlip;
  if (!reading.AtStitch()) return Of(reading.FailHere("the stitch with which the yarn is joined"));
  if (!reading.ReadStitch(&stitch)) return Match::kFailed;
  TakeJoiningPlace(reading);
  if (stitch == TextStitch::kSlip) {
    SetMark(reading, start ? RowMark::kJoinedWithSlip : RowMark::kJoinedToFirst);
    return Match::kYes;
  }
  if (!start) {
    reading.Fail(TextFindingCode::kUnreadable, token, "a slip stitch, to close the round");
    return Match::kFailed;
  }
  SetMark(reading, RowMark::kStandingStitch);
  TextStep step;
  step.stitch = stitch;
  step.at = at;
  step.count = SizedCount(1);
  return Of(reading.AddStep(std::move(step)));
}

// "join B with sc in first st", "join yarn with sl st", "join with sl st to first st", "join".
Match ReadJoin(RowReading& reading) {
  const size_t start = reading.at();
  const bool begins = reading.fresh();
  if (!reading.Take(Word::kJoin)) return Match::kNo;
  reading.Take(Word::kColour) || reading.Take(Word::kYarn);
  chart::Colour colour = chart::Colour::kA;
  if (reading.ReadColour(false, &colour) == Match::kYes) {
    if (!begins) {
      reading.MoveTo(start);
      return Of(reading.FailHere("a join without a colour (the next round names it)"));
    }
    if (!reading.StateColour(colour, start)) return Match::kFailed;
  }
  reading.Take(',');
  if (reading.Take(Word::kWith) || reading.Take(Word::kUsing)) {
    return ReadJoiningStitch(reading, begins);
  }
  TakeJoiningPlace(reading);
  SetMark(reading, begins ? RowMark::kJoinedWithSlip : RowMark::kJoinedToFirst);
  return Match::kYes;
}

// "sl st in first st (to join)", "sl st to join".
Match ReadSlipToFirst(RowReading& reading) {
  const size_t length = reading.Peek().is(Word::kSs)                                    ? 1
                        : reading.Peek().is(Word::kSl) && reading.Peek(1).is(Word::kSt) ? 2
                                                                                        : 0;
  if (length == 0) return Match::kNo;
  const size_t start = reading.at();
  reading.Pass(length);
  const size_t place = reading.at();
  TakeJoiningPlace(reading);
  if (reading.at() == place) {
    reading.MoveTo(start);
    return Match::kNo;
  }
  SetMark(reading, reading.fresh() ? RowMark::kJoinedWithSlip : RowMark::kJoinedToFirst);
  return Match::kYes;
}

Match ReadStanding(RowReading& reading) {
  const size_t ahead = reading.AtNumber() && reading.Peek().number == 1 ? 1 : 0;
  if (!reading.Peek(ahead).is(Word::kStanding)) return Match::kNo;
  if (!reading.fresh())
    return Of(reading.FailHere("a stitch (only the first of a row can be standing)"));
  reading.Pass(ahead + 1);
  SetMark(reading, RowMark::kStandingStitch);
  if (!reading.AtStitch()) return Of(reading.FailHere("a stitch"));
  return Of(ReadStitches(reading, std::nullopt));
}

Match ReadSideMark(RowReading& reading) {
  const size_t start = reading.at();
  chart::Side side = chart::Side::kRightSide;
  if (!reading.fresh() || reading.ReadSide(&side) != Match::kYes) return Match::kNo;
  return Of(reading.StateSide(side, start));
}

}  // namespace

Match ReadNotCounted(RowReading& reading) {
  const size_t start = reading.at();
  const bool bracket = reading.AtOpen();
  const size_t close = bracket ? reading.PartnerOf(start) : 0;
  if (bracket && close == 0) return Match::kNo;
  if (bracket || reading.Peek().is(',')) reading.Pass();
  bool negated = false;
  while (reading.Peek().is(Word::kDo) || reading.Peek().is(Word::kNot) ||
         reading.Peek().is(Word::kRemark)) {
    negated |= reading.Peek().is(Word::kNot);
    reading.Pass();
  }
  const bool is_stitch = negated && (reading.Peek().is(Word::kA) || reading.Peek().is(Word::kSt));
  if (!is_stitch && !reading.Peek().is(Word::kCount)) {
    reading.MoveTo(start);
    return Match::kNo;
  }
  if (!negated) {
    reading.FailHere("\"does not count as a st\" (turning chains never count here)");
    return Match::kFailed;
  }
  if (bracket) {
    reading.MoveTo(close + 1);
    return Match::kYes;
  }
  reading.Take(Word::kCount);
  reading.Take(Word::kAs);
  reading.Take(Word::kA);
  reading.Take(Word::kFirst);
  reading.TakeNoun();
  return Match::kYes;
}

Match ReadMark(RowReading& reading) {
  const Token& next = reading.Peek();
  if (next.kind != TokenKind::kWord && !reading.AtNumber()) return Match::kNo;
  // Most steps begin with a stitch, and of those only a slip stitch can be a mark.
  const bool slip = next.is(Word::kSs) || next.is(Word::kSl);
  if (next.kind == TokenKind::kWord && IsStitchWord(next.word) && !slip) return Match::kNo;
  for (const auto read : {ReadTurn, ReadFastenOff, ReadAside, ReadWith, ReadJoin, ReadSlipToFirst,
                          ReadStanding, ReadSideMark}) {
    if (const Match match = read(reading); match != Match::kNo) return match;
  }
  return Match::kNo;
}

}  // namespace rowproof::rows
