#include "services/domain/rows/reading/tokens.h"

#include <array>

#include "services/domain/rows/reading/characters.h"

namespace rowproof::rows {
namespace {

enum class Class : uint8_t { kMark, kLetter, kDigit, kBlank, kLine, kHigh };

constexpr std::array<Class, 256> Classes() {
  std::array<Class, 256> classes{};
  for (size_t c = 0; c < 256; ++c) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    classes[c] = letter                  ? Class::kLetter
                 : c >= '0' && c <= '9'  ? Class::kDigit
                 : c == '\n'             ? Class::kLine
                 : c <= ' ' || c == 0x7f ? Class::kBlank
                 : c >= 0x80             ? Class::kHigh
                                         : Class::kMark;
  }
  return classes;
}
constexpr std::array<Class, 256> kClasses = Classes();

class Scanner {
 public:
  Scanner(std::string_view text, size_t begin, size_t end, int line, const Vocabulary& words,
          std::vector<Token>& tokens)
      : text_(text), at_(begin), end_(end), line_(line), words_(words), tokens_(tokens) {}

  void Scan() {
    while (at_ < end_) {
      switch (ClassAt(at_)) {
        case Class::kLine:
          ++line_;
          column_ = 1;
          ++at_;
          glued_ = false;
          break;
        case Class::kBlank:
          Pass(1);
          glued_ = false;
          break;
        case Class::kLetter:
          ScanWord();
          break;
        case Class::kDigit:
          ScanNumber();
          break;
        case Class::kMark:
          ScanMark(text_[at_], 1);
          break;
        case Class::kHigh:
          ScanHigh();
          break;
      }
    }
    Add(TokenKind::kEnd, at_, column_);
  }

 private:
  Class ClassAt(size_t i) const { return kClasses[static_cast<uint8_t>(text_[i])]; }

  void Pass(size_t bytes) {
    at_ += bytes;
    ++column_;
  }

  Token& Add(TokenKind kind, size_t begin, int column) {
    Token& token = tokens_.emplace_back();
    token.begin = static_cast<uint32_t>(begin);
    token.end = static_cast<uint32_t>(at_);
    token.line = line_;
    token.column = column;
    token.kind = kind;
    token.glued = glued_;
    glued_ = true;
    return token;
  }

  void ScanHigh() {
    size_t length = 0;
    const char plain = PlainCharacter(text_, at_, &length);
    if (plain == 'a') return ScanWord();
    if (plain == 0) return Pass(length);
    if (plain == ' ') {
      Pass(length);
      glued_ = false;
      return;
    }
    ScanMark(plain, length);
  }

  void ScanMark(char mark, size_t length) {
    const size_t begin = at_;
    const int column = column_;
    Pass(length);
    int count = 1;
    if (mark == '*') {
      size_t more = 1;
      while (at_ < end_ && IsAsterisk(&more)) {
        Pass(more);
        ++count;
      }
    }
    Token& token = Add(TokenKind::kMark, begin, column);
    token.mark = mark == '\x01' ? '?' : mark;
    token.number = count;
  }

  bool IsAsterisk(size_t* length) const {
    if (ClassAt(at_) == Class::kHigh) return PlainCharacter(text_, at_, length) == '*';
    *length = 1;
    return text_[at_] == '*';
  }

  void ScanNumber() {
    const size_t begin = at_;
    const int column = column_;
    int value = 0;
    while (at_ < end_ && ClassAt(at_) == Class::kDigit) {
      if (value <= kLargestKeptNumber) value = value * 10 + (text_[at_] - '0');
      Pass(1);
    }
    value = value > kLargestKeptNumber ? kLargestKeptNumber + 1 : value;
    const bool ordinal = IsOrdinal(value);
    if (ordinal) {
      Pass(1);
      Pass(1);
    }
    Add(ordinal ? TokenKind::kOrdinal : TokenKind::kNumber, begin, column).number = value;
  }

  // "1st", "2nd": the letters that belong to the number, and no more.
  bool IsOrdinal(int value) const {
    if (at_ + 2 > end_) return false;
    if (at_ + 2 < end_ && ClassAt(at_ + 2) == Class::kLetter) return false;
    const bool teens = value % 100 >= 11 && value % 100 <= 13;
    const int last = teens ? 0 : value % 10;
    const std::string_view ending = last == 1 ? "st" : last == 2 ? "nd" : last == 3 ? "rd" : "th";
    return (text_[at_] | 0x20) == ending[0] && (text_[at_ + 1] | 0x20) == ending[1];
  }

  void ScanWord() {
    const size_t begin = at_;
    const int column = column_;
    PackedWord packed;
    size_t letters = 0;
    const auto keep = [&](char c) {
      if (letters < 16) {
        (letters < 8 ? packed.low : packed.high) |= static_cast<uint64_t>(static_cast<uint8_t>(c))
                                                    << (letters % 8 * 8);
      }
      ++letters;
    };
    while (at_ < end_) {
      const Class c = ClassAt(at_);
      if (c == Class::kLetter) {
        keep(static_cast<char>(text_[at_] | 0x20));
        Pass(1);
        continue;
      }
      if (c == Class::kMark && text_[at_] == '\'' && at_ + 1 < end_ &&
          ClassAt(at_ + 1) == Class::kLetter) {
        keep('\'');
        Pass(1);
        continue;
      }
      if (c != Class::kHigh || !ScanHighLetter(keep)) break;
    }
    AddWord(begin, column, packed, letters);
  }

  // A letter outside of ASCII, an apostrophe between letters, or a character that shows nothing.
  template <typename Keep>
  bool ScanHighLetter(const Keep& keep) {
    size_t length = 0;
    const char plain = PlainCharacter(text_, at_, &length);
    if (plain == 0) {
      Pass(length);
      return true;
    }
    const size_t after = at_ + length;
    const bool apostrophe = plain == '\'' && after < end_ && ClassAt(after) == Class::kLetter;
    if (plain != 'a' && !apostrophe) return false;
    if (apostrophe) {
      keep('\'');
    } else {
      for (size_t i = at_; i < after; ++i) keep(text_[i]);
    }
    Pass(length);
    return true;
  }

  void AddWord(size_t begin, int column, const PackedWord& packed, size_t letters) {
    if (letters == 1 && packed.low == 'x') {
      Token& times = Add(TokenKind::kMark, begin, column);
      times.mark = 'x';
      times.number = 1;
      return;
    }
    Token& token = Add(TokenKind::kWord, begin, column);
    const VocabularyEntry* entry = letters <= 16 ? words_.Find(packed) : nullptr;
    if (entry == nullptr) return;
    token.word = entry->word;
    if (entry->number == 0) return;
    token.kind = TokenKind::kNumber;
    token.number = entry->number;
  }

  std::string_view text_;
  size_t at_;
  size_t end_;
  int line_;
  int column_ = 1;
  bool glued_ = false;
  const Vocabulary& words_;
  std::vector<Token>& tokens_;
};

}  // namespace

void Tokenize(std::string_view text, size_t begin, size_t end, int line, const Vocabulary& words,
              std::vector<Token>& tokens) {
  Scanner(text, begin, end, line, words, tokens).Scan();
}

}  // namespace rowproof::rows
