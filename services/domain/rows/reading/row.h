// One row while it is read: its tokens, the place reached, what was understood, and the first
// error. The parts of the grammar (reading_head.h, reading_steps.h, ...) are functions over it.
// They return false once there is an error.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_ROW_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_ROW_H_

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/reading/tokens.h"
#include "services/domain/rows/text_row.h"

namespace rowproof::rows {

// Whether something optional is at the place reached.
enum class Match : uint8_t { kNo, kYes, kFailed };

// A declared colour's name as the tokens that it consists of.
struct ColourWords {
  std::vector<std::string> words;  // in small letters
  chart::Colour colour = chart::Colour::kA;
};

// What all rows of a text share.
struct ReadingContext {
  std::string_view text;
  Vocabulary words;
  std::optional<chart::Terms> terms;
  int sizes = 1;
  std::vector<ColourWords> colours;
  int64_t steps_left = kMostSteps;
  // Which size each number of a list is for; empty: they are in the order of the sizes.
  std::vector<int> size_order;

  // A list as the text has it, in the order of the sizes.
  std::vector<int> ByName(std::vector<int> numbers) const {
    if (size_order.size() != numbers.size()) return numbers;
    std::vector<int> sorted(numbers.size());
    for (size_t i = 0; i < numbers.size(); ++i) {
      sorted[static_cast<size_t>(size_order[i])] = numbers[i];
    }
    return sorted;
  }
};

struct ReadingError {
  TextFindingCode code = TextFindingCode::kUnreadable;
  size_t token = 0;
  std::string fits;
};

std::string LowerText(std::string_view text);

class RowReading {
 public:
  // `tokens` end with a kEnd, and outlive the reading.
  RowReading(ReadingContext& context, const std::vector<Token>& tokens, TextRow& row);

  ReadingContext& context() { return context_; }
  TextRow& row() { return row_; }

  // The token some places ahead, or the last one.
  const Token& Peek(size_t ahead = 0) const { return tokens_[std::min(at_ + ahead, last_)]; }
  const Token& Before() const { return tokens_[at_ == 0 ? 0 : at_ - 1]; }
  void Pass(size_t tokens = 1) { at_ = std::min(at_ + tokens, last_); }
  size_t at() const { return at_; }
  void MoveTo(size_t at) { at_ = at; }
  const Token& token(size_t i) const { return tokens_[i]; }
  bool AtEnd() const { return Peek().kind == TokenKind::kEnd; }
  TextPlace place() const { return {Peek().line, Peek().column}; }
  std::string_view TextOf(const Token& token) const {
    return context_.text.substr(token.begin, token.end - token.begin);
  }

  bool Take(Word word) {
    if (!Peek().is(word)) return false;
    Pass();
    return true;
  }
  bool Take(char mark) {
    if (!Peek().is(mark)) return false;
    Pass();
    return true;
  }
  bool AtNumber(size_t ahead = 0) const { return Peek(ahead).kind == TokenKind::kNumber; }
  bool AtOpen() const { return Peek().is('(') || Peek().is('[') || Peek().is('{'); }
  bool AtClose() const { return Peek().is(')') || Peek().is(']') || Peek().is('}'); }

  // The closing bracket that belongs to the opening one at a token; 0 if none does.
  size_t PartnerOf(size_t open) const { return partners_.empty() ? 0 : partners_[open]; }

  // Numbers: "12", "12 (16, 20)". At a number.
  bool ReadNumber(int* number);
  bool ReadSized(SizedCount* count);
  // Whether the bracket at `open` holds nothing but numbers (and "-" if `absent` says so, and
  // ranges if `ranges` does): a list by size.
  bool IsListBracket(size_t open, bool ranges) const;
  // Numbers that a list must have here.
  int SizesHere() const { return row_.only_size != -1 ? 1 : context_.sizes; }
  // "A", a declared name. `small_letters` are accepted too if a bracket makes them certain.
  Match ReadColour(bool small_letters, chart::Colour* colour);
  bool StateColour(chart::Colour colour, size_t token);
  bool StateSide(chart::Side side, size_t token);
  // "RS", "wrong side", "Side A", with "facing" after it.
  Match ReadSide(chart::Side* side);

  // A word that names stitches of the row below: st, sts, sc, ch, "ch-3 sp" is none.
  size_t NounLength(size_t ahead = 0) const;
  bool TakeNoun();
  // Tokens of "ch-sp", "ch-3 sp", "chain space"; 0 if there is none.
  size_t SpaceLength(size_t ahead = 0) const;

  // A stitch by its abbreviation or name.
  bool AtStitch(size_t ahead = 0) const;
  bool ReadStitch(TextStitch* stitch);
  void NoteTerms(size_t token);

  bool Fail(TextFindingCode code, size_t token, std::string fits);
  bool FailHere(std::string fits) {
    return Fail(TextFindingCode::kUnreadable, at_, std::move(fits));
  }
  const std::optional<ReadingError>& error() const { return error_; }
  // The first word of the other system; the row is read all the same.
  std::optional<size_t> mixed() const { return mixed_; }

  // `sc 3, ` are three tokens: room for the steps of most rows.
  void MakeRoom() { steps_.reserve((last_ + 1) / 3); }
  bool AddStep(TextStep step);
  bool AddStitches(TextStitch stitch, TextPlace at, int count);
  // The steps so far, those of open groups among them.
  std::vector<TextStep>& steps() { return steps_; }
  // Moves the steps from `start` on out.
  std::vector<TextStep> TakeSteps(size_t start);
  // The row begins here: no step was read, no group is open.
  bool fresh() const { return steps_.empty() && open_groups == 0; }
  int open_groups = 0;
  // Repeats to the row's end so far.
  int open_ended = 0;

 private:
  void MatchBrackets();
  bool TakeFromStepsLeft();

  ReadingContext& context_;
  const Token* tokens_;
  size_t last_;  // the kEnd
  TextRow& row_;
  size_t at_ = 0;
  std::vector<size_t> partners_;
  std::vector<TextStep> steps_;
  std::optional<ReadingError> error_;
  std::optional<size_t> mixed_;
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_ROW_H_
