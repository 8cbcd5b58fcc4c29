// The words that the reader of rows knows. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_VOCABULARY_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_VOCABULARY_H_

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

#include "services/domain/rows/text_row.h"

namespace rowproof::rows {

enum class Word : uint8_t {
  kOther,
  // Stitches: abbreviations, and the words of full names ("spike single crochet").
  kSc,
  kSsc,
  kMdc,
  kHdc,
  kHtr,
  kSdc,
  kMtr,
  kTrtr,
  kDc,
  kTr,
  kDtr,
  kSs,
  kSingle,
  kDouble,
  kTreble,
  kHalf,
  kSpike,
  kMosaic,
  kCrochet,
  kSl,
  kDefinedPlain,
  kDefinedDrop,
  // What stitches are worked into.
  kCh,
  kSp,
  kSt,
  kSkip,
  kMiss,
  kBlo,
  kFlo,
  kBack,
  kFront,
  kBoth,
  kLoop,
  kOnly,
  kHook,
  kSkipped,
  kBelow,
  kBehind,
  // How often, how far.
  kEach,
  kNext,
  kFirst,
  kLast,
  kSame,
  kRemaining,
  kAcross,
  kAround,
  kTo,
  kEnd,
  kUntil,
  kLeft,
  kRep,
  kMore,
  kTimes,
  kOnce,
  kTwice,
  kThrice,
  kTotal,
  kFrom,
  // Rows.
  kRow,
  kRows,
  kRound,
  kRounds,
  kR,
  kRs,
  kWs,
  kRight,
  kWrong,
  kSide,
  kFacing,
  kAs,
  kPrevious,
  kWork,
  kSize,
  kSizes,
  kAll,
  // Starts, ends, colours.
  kWith,
  kUsing,
  kJoin,
  kStanding,
  kTurn,
  kNot,
  kDo,
  kFasten,
  kOff,
  kFo,
  kYarn,
  kColour,
  kChange,
  kCount,
  kRing,
  kStart,
  // Words around the rows.
  kFoundation,
  kTerms,
  kUs,
  kUk,
  kDrop,
  kPlain,
  // Small words.
  kIn,
  kInto,
  kOf,
  kOver,
  kThe,
  kA,
  kAnd,
  kThen,
  kFor,
  kRemark,
};

// A word in small letters, 16 bytes at most.
struct PackedWord {
  uint64_t low = 0;
  uint64_t high = 0;
  bool operator==(const PackedWord&) const = default;
};

struct VocabularyEntry {
  PackedWord packed;
  Word word = Word::kOther;
  uint8_t number = 0;  // of a word for a number, 0 otherwise
};

class Vocabulary {
 public:
  Vocabulary();

  // nullptr if the word is not known.
  const VocabularyEntry* Find(const PackedWord& packed) const {
    for (size_t i = Slot(packed);; i = (i + 1) % kSlots) {
      if (entries_[i].packed == packed) return &entries_[i];
      if (entries_[i].packed == PackedWord{}) return nullptr;
    }
  }
  const VocabularyEntry* Find(std::string_view word) const;

  // Adds a stitch, or gives an abbreviation of a stitch another meaning; false if the name is a
  // word with another use, no letters, too long, or one too many. kPlain or kDrop.
  bool Define(std::string_view name, TextStitch meaning);

 private:
  static constexpr size_t kSlots = 1024;
  static size_t Slot(const PackedWord& packed) {
    return ((packed.low ^ packed.high * 0x9e3779b97f4a7c15u) * 0xff51afd7ed558ccdu) >> 54;
  }
  void Insert(const PackedWord& packed, Word word, uint8_t number);

  std::array<VocabularyEntry, kSlots> entries_{};
  int defined_ = 0;
};

// The word in small letters; nothing if it has more than 16 bytes.
std::optional<PackedWord> Pack(std::string_view word);

// Words that mean a stitch by themselves: sc, dc, ...
bool IsStitchWord(Word word);

// A stitch's meaning in the terms; nothing for dc, tr, dtr, trtr if the terms are not known.
std::optional<TextStitch> MeaningOf(Word word, std::optional<chart::Terms> terms);

// The system that alone has this word; nothing if both may have it.
std::optional<chart::Terms> TermsOfWord(Word word);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_VOCABULARY_H_
