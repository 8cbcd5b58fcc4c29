#include "services/domain/rows/reading/row.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"

namespace rowproof::rows {

static_assert(kLargestKeptNumber == kLargestNumber);

std::string LowerText(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c | 0x20);
  }
  return lower;
}

RowReading::RowReading(ReadingContext& context, const std::vector<Token>& tokens, TextRow& row)
    : context_(context), tokens_(tokens.data()), last_(tokens.size() - 1), row_(row) {
  MatchBrackets();
}

void RowReading::MatchBrackets() {
  std::vector<size_t> open;
  for (size_t i = 0; i < last_; ++i) {
    if (tokens_[i].kind != TokenKind::kMark) continue;
    const char mark = tokens_[i].mark;
    if (mark == '(' || mark == '[' || mark == '{') {
      if (partners_.empty()) partners_.resize(last_ + 1, 0);
      open.push_back(i);
    } else if ((mark == ')' || mark == ']' || mark == '}') && !open.empty()) {
      const char wanted = mark == ')' ? '(' : mark == ']' ? '[' : '{';
      // A bracket of the wrong kind closes nothing; the reader stops there.
      if (tokens_[open.back()].mark != wanted) return;
      partners_[open.back()] = i;
      open.pop_back();
    }
  }
}

bool RowReading::ReadNumber(int* number) {
  if (!AtNumber()) return FailHere("a number");
  if (Peek().number > kLargestNumber) {
    return Fail(TextFindingCode::kTooMuch, at_, fmt::format("a number up to {}", kLargestNumber));
  }
  *number = Peek().number;
  Pass();
  return true;
}

bool RowReading::IsListBracket(size_t open, bool ranges) const {
  const size_t close = PartnerOf(open);
  if (close <= open + 1) return false;
  bool value = false;
  for (size_t i = open + 1; i < close; ++i) {
    const Token& token = tokens_[i];
    if (token.is(',') || token.is(';') || token.is('/')) {
      if (!value) return false;
      value = false;
      continue;
    }
    const bool number = token.kind == TokenKind::kNumber;
    if (!number && !(ranges && (token.is('-') || token.is(Word::kTo)))) return false;
    if (value && number && !ranges) return false;
    value = true;
  }
  return value;
}

bool RowReading::ReadSized(SizedCount* count) {
  const size_t start = at_;
  int first = 0;
  if (!ReadNumber(&first)) return false;
  if (!AtOpen() || !IsListBracket(at_, false)) {
    *count = SizedCount(first);
    return true;
  }
  const size_t close = PartnerOf(at_);
  std::vector<int> numbers = {first};
  for (Pass(); at_ < close;) {
    int number = 0;
    if (!ReadNumber(&number)) return false;
    numbers.push_back(number);
    if (at_ < close) Pass();
  }
  Pass();
  if (static_cast<int>(numbers.size()) != SizesHere()) {
    return Fail(
        TextFindingCode::kWrongList, start,
        SizesHere() == 1
            ? std::string("one number for the one size (write \"sts\" after a stitch count)")
            : fmt::format("one number for all sizes, or {} numbers, one per size", SizesHere()));
  }
  *count = SizedCount(context_.ByName(std::move(numbers)));
  return true;
}

Match RowReading::ReadColour(bool small_letters, chart::Colour* colour) {
  const ColourWords* best = nullptr;
  for (const ColourWords& name : context_.colours) {
    if (best != nullptr && name.words.size() <= best->words.size()) continue;
    bool same = true;
    for (size_t i = 0; same && i < name.words.size(); ++i) {
      const Token& token = Peek(i);
      same = token.kind != TokenKind::kEnd && LowerText(TextOf(token)) == name.words[i];
    }
    if (same) best = &name;
  }
  if (best != nullptr) {
    *colour = best->colour;
    Pass(best->words.size());
    return Match::kYes;
  }
  const Token& token = Peek();
  if (token.kind != TokenKind::kWord || token.end - token.begin != 1) return Match::kNo;
  const char letter = context_.text[token.begin];
  const char capital = small_letters ? static_cast<char>(letter & ~0x20) : letter;
  if (capital < 'A' || capital > 'H') return Match::kNo;
  *colour = static_cast<chart::Colour>(capital - 'A');
  Pass();
  return Match::kYes;
}

bool RowReading::StateColour(chart::Colour colour, size_t token) {
  if (row_.colour.has_value() && *row_.colour != colour) {
    return Fail(TextFindingCode::kContradiction, token,
                fmt::format("colour {}, as stated earlier in the row", chart::Name(*row_.colour)));
  }
  row_.colour = colour;
  return true;
}

bool RowReading::StateSide(chart::Side side, size_t token) {
  if (row_.side.has_value() && *row_.side != side) {
    return Fail(TextFindingCode::kContradiction, token,
                fmt::format("{}, as stated earlier in the row", chart::Name(*row_.side)));
  }
  row_.side = side;
  return true;
}

Match RowReading::ReadSide(chart::Side* side) {
  const Token& token = Peek();
  if (token.is(Word::kRs) || token.is(Word::kWs)) {
    *side = token.is(Word::kRs) ? chart::Side::kRightSide : chart::Side::kWrongSide;
    Pass();
  } else if ((token.is(Word::kRight) || token.is(Word::kWrong)) && Peek(1).is(Word::kSide)) {
    *side = token.is(Word::kRight) ? chart::Side::kRightSide : chart::Side::kWrongSide;
    Pass(2);
  } else if (token.is(Word::kSide)) {
    const Token& letter = Peek(1);
    const std::string_view name = TextOf(letter);
    if (name != "A" && name != "B") return Match::kNo;
    *side = name == "A" ? chart::Side::kRightSide : chart::Side::kWrongSide;
    Pass(2);
  } else {
    return Match::kNo;
  }
  Take(Word::kFacing);
  return Match::kYes;
}

size_t RowReading::SpaceLength(size_t ahead) const {
  size_t i = ahead;
  if (!Peek(i).is(Word::kCh)) return 0;
  ++i;
  if (Peek(i).is('-')) ++i;
  if (AtNumber(i)) {
    ++i;
    if (Peek(i).is('-')) ++i;
  }
  return Peek(i).is(Word::kSp) ? i + 1 - ahead : 0;
}

size_t RowReading::NounLength(size_t ahead) const {
  if (SpaceLength(ahead) > 0) return 0;
  size_t i = ahead;
  if (Peek(i).is(Word::kSkipped)) ++i;
  const Token& token = Peek(i);
  if (token.is(Word::kSt) || token.is(Word::kCh)) return i + 1 - ahead;
  if (token.kind == TokenKind::kWord && IsStitchWord(token.word)) return i + 1 - ahead;
  return 0;
}

bool RowReading::TakeNoun() {
  const size_t length = NounLength();
  Pass(length);
  return length > 0;
}

bool RowReading::AtStitch(size_t ahead) const {
  const Token& token = Peek(ahead);
  if (token.kind != TokenKind::kWord) return false;
  if (IsStitchWord(token.word)) return true;
  switch (token.word) {
    case Word::kSl:
      return Peek(ahead + 1).is(Word::kSt);
    case Word::kSpike:
    case Word::kMosaic:
      return AtStitch(ahead + 1);
    case Word::kHalf:
    case Word::kSingle:
    case Word::kDouble:
    case Word::kTreble:
      return true;
    default:
      return false;
  }
}

void RowReading::NoteTerms(size_t token) {
  const auto only = TermsOfWord(tokens_[token].word);
  if (only.has_value() && context_.terms.has_value() && *only != *context_.terms &&
      !mixed_.has_value()) {
    mixed_ = token;
  }
}

bool RowReading::ReadStitch(TextStitch* stitch) {
  const size_t start = at_;
  NoteTerms(at_);
  if (Take(Word::kSl)) {
    if (!Take(Word::kSt)) return FailHere("\"st\"");
    *stitch = TextStitch::kSlip;
    return true;
  }
  const bool spike = Take(Word::kSpike);
  const bool mosaic = !spike && Take(Word::kMosaic);
  const bool half = Take(Word::kHalf);
  Word word = Peek().word;
  if (Peek().kind != TokenKind::kWord) return FailHere("a stitch");
  NoteTerms(at_);
  if (word == Word::kSingle) word = Word::kSc;
  if (word == Word::kDouble) word = half ? Word::kHdc : Word::kDc;
  if (word == Word::kTreble) word = half ? Word::kHtr : Word::kTr;
  const auto meaning = MeaningOf(word, context_.terms);
  const bool by_terms = word == Word::kDc || word == Word::kTr || word == Word::kDtr;
  if (by_terms && !spike && !mosaic) row_.depends_on_terms = true;
  if (!meaning.has_value() && !by_terms) return FailHere("a stitch");
  Pass();
  Take(Word::kCrochet);
  if (spike || mosaic) {
    *stitch = spike ? TextStitch::kSpike : TextStitch::kMosaicDrop;
    return true;
  }
  if (!meaning.has_value()) {
    return Fail(TextFindingCode::kUnknownTerms, start,
                "US or UK terms to be declared, because this stitch depends on them");
  }
  *stitch = *meaning;
  return true;
}

bool RowReading::Fail(TextFindingCode code, size_t token, std::string fits) {
  if (!error_.has_value()) {
    error_ = ReadingError{code, std::min(token, last_), std::move(fits)};
  }
  return false;
}

bool RowReading::TakeFromStepsLeft() {
  if (--context_.steps_left >= 0) return true;
  return Fail(TextFindingCode::kTooMuch, at_,
              fmt::format("at most {} steps in a text", kMostSteps));
}

bool RowReading::AddStep(TextStep step) {
  if (!TakeFromStepsLeft()) return false;
  steps_.push_back(std::move(step));
  return true;
}

bool RowReading::AddStitches(TextStitch stitch, TextPlace at, int count) {
  if (!TakeFromStepsLeft()) return false;
  TextStep& step = steps_.emplace_back();
  step.stitch = stitch;
  step.at = at;
  step.count = SizedCount(count);
  return true;
}

std::vector<TextStep> RowReading::TakeSteps(size_t start) {
  if (start == 0) return std::exchange(steps_, {});
  std::vector<TextStep> taken(std::make_move_iterator(steps_.begin() + static_cast<long>(start)),
                              std::make_move_iterator(steps_.end()));
  steps_.resize(start);
  return taken;
}

}  // namespace rowproof::rows
