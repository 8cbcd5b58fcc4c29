// The words, numbers and marks of a text, with typographic variants undone. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_TOKENS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_TOKENS_H_

#include <cstdint>
#include <string_view>
#include <vector>

#include "services/domain/rows/reading/vocabulary.h"

namespace rowproof::rows {

enum class TokenKind : uint8_t {
  kWord,     // `word`; kOther if the vocabulary has not got it
  kNumber,   // `number`; also "three"
  kOrdinal,  // `number`: "2nd"
  kMark,     // `mark`; `number` asterisks for '*'; 'x' for the letter and the times sign
  kEnd,
};

struct Token {
  uint32_t begin = 0;  // bytes of the text
  uint32_t end = 0;
  int32_t line = 0;  // place, from 1
  int32_t column = 0;
  int32_t number = 0;
  Word word = Word::kOther;
  TokenKind kind = TokenKind::kEnd;
  char mark = 0;
  // There is no blank before it.
  bool glued = false;

  bool is(Word wanted) const { return kind == TokenKind::kWord && word == wanted; }
  bool is(char wanted) const { return kind == TokenKind::kMark && mark == wanted; }
};

// A number beyond this is kept as one more: the reader refuses it at its place.
inline constexpr int kLargestKeptNumber = 99'999;

// Appends the tokens of text[begin, end), which is well-formed UTF-8, and a kEnd. `line` is the
// line of `begin`, where a line starts.
void Tokenize(std::string_view text, size_t begin, size_t end, int line, const Vocabulary& words,
              std::vector<Token>& tokens);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_TOKENS_H_
