#include "services/domain/rows/reading/vocabulary.h"

#include "services/domain/check.h"
#include "services/domain/rows/reading/reader.h"

namespace rowproof::rows {
namespace {

struct Known {
  const char* text;
  Word word;
  uint8_t number = 0;
};

// Abbreviations as in the Craft Yarn Council's master list and its table of UK terms; ssc, sdc, mdc
// and mtr are those of the writer.
constexpr Known kKnown[] = {
    {"sc", Word::kSc},
    {"scs", Word::kSc},
    {"ssc", Word::kSsc},
    {"mdc", Word::kMdc},
    {"hdc", Word::kHdc},
    {"htr", Word::kHtr},
    {"sdc", Word::kSdc},
    {"mtr", Word::kMtr},
    {"trtr", Word::kTrtr},
    {"dc", Word::kDc},
    {"dcs", Word::kDc},
    {"tr", Word::kTr},
    {"trs", Word::kTr},
    {"dtr", Word::kDtr},
    {"ss", Word::kSs},
    {"single", Word::kSingle},
    {"double", Word::kDouble},
    {"treble", Word::kTreble},
    {"half", Word::kHalf},
    {"spike", Word::kSpike},
    {"mosaic", Word::kMosaic},
    {"crochet", Word::kCrochet},
    {"crochets", Word::kCrochet},
    {"sl", Word::kSl},
    {"slip", Word::kSl},
    {"slst", Word::kSs},
    {"ch", Word::kCh},
    {"chs", Word::kCh},
    {"chain", Word::kCh},
    {"chains", Word::kCh},
    {"sp", Word::kSp},
    {"sps", Word::kSp},
    {"space", Word::kSp},
    {"spaces", Word::kSp},
    {"st", Word::kSt},
    {"sts", Word::kSt},
    {"stitch", Word::kSt},
    {"stitches", Word::kSt},
    {"sk", Word::kSkip},
    {"skip", Word::kSkip},
    {"miss", Word::kMiss},
    {"blo", Word::kBlo},
    {"flo", Word::kFlo},
    {"bl", Word::kBlo},
    {"fl", Word::kFlo},
    {"back", Word::kBack},
    {"front", Word::kFront},
    {"both", Word::kBoth},
    {"loop", Word::kLoop},
    {"loops", Word::kLoop},
    {"lp", Word::kLoop},
    {"lps", Word::kLoop},
    {"only", Word::kOnly},
    {"hook", Word::kHook},
    {"skipped", Word::kSkipped},
    {"missed", Word::kSkipped},
    {"below", Word::kBelow},
    {"down", Word::kBelow},
    {"behind", Word::kBehind},
    {"each", Word::kEach},
    {"every", Word::kEach},
    {"next", Word::kNext},
    {"first", Word::kFirst},
    {"last", Word::kLast},
    {"same", Word::kSame},
    {"remaining", Word::kRemaining},
    {"remain", Word::kRemaining},
    {"rem", Word::kRemaining},
    {"across", Word::kAcross},
    {"around", Word::kAround},
    {"round", Word::kRound},
    {"to", Word::kTo},
    {"end", Word::kEnd},
    {"until", Word::kUntil},
    {"left", Word::kLeft},
    {"rep", Word::kRep},
    {"repeat", Word::kRep},
    {"more", Word::kMore},
    {"times", Word::kTimes},
    {"time", Word::kTimes},
    {"once", Word::kOnce},
    {"twice", Word::kTwice},
    {"thrice", Word::kThrice},
    {"total", Word::kTotal},
    {"from", Word::kFrom},
    {"row", Word::kRow},
    {"rows", Word::kRows},
    {"rnd", Word::kRound},
    {"rnds", Word::kRounds},
    {"rounds", Word::kRounds},
    {"r", Word::kR},
    {"rs", Word::kRs},
    {"ws", Word::kWs},
    {"right", Word::kRight},
    {"wrong", Word::kWrong},
    {"side", Word::kSide},
    {"facing", Word::kFacing},
    {"as", Word::kAs},
    {"previous", Word::kPrevious},
    {"prev", Word::kPrevious},
    {"work", Word::kWork},
    {"size", Word::kSize},
    {"sizes", Word::kSizes},
    {"all", Word::kAll},
    {"with", Word::kWith},
    {"using", Word::kUsing},
    {"join", Word::kJoin},
    {"joining", Word::kJoin},
    {"standing", Word::kStanding},
    {"turn", Word::kTurn},
    {"turning", Word::kTurn},
    {"not", Word::kNot},
    {"don't", Word::kNot},
    {"doesn't", Word::kNot},
    {"without", Word::kNot},
    {"do", Word::kDo},
    {"does", Word::kDo},
    {"fasten", Word::kFasten},
    {"finish", Word::kFasten},
    {"off", Word::kOff},
    {"fo", Word::kFo},
    {"yarn", Word::kYarn},
    {"colour", Word::kColour},
    {"color", Word::kColour},
    {"colours", Word::kColour},
    {"colors", Word::kColour},
    {"col", Word::kColour},
    {"change", Word::kChange},
    {"changing", Word::kChange},
    {"switch", Word::kChange},
    {"switching", Word::kChange},
    {"carry", Word::kChange},
    {"carrying", Word::kChange},
    {"cut", Word::kChange},
    {"break", Word::kChange},
    {"leaving", Word::kChange},
    {"weave", Word::kChange},
    {"count", Word::kCount},
    {"counts", Word::kCount},
    {"counted", Word::kCount},
    {"counting", Word::kCount},
    {"ring", Word::kRing},
    {"starting", Word::kStart},
    {"beginning", Word::kStart},
    {"beg", Word::kStart},
    {"foundation", Word::kFoundation},
    {"terms", Word::kTerms},
    {"terminology", Word::kTerms},
    {"us", Word::kUs},
    {"uk", Word::kUk},
    {"drop", Word::kDrop},
    {"plain", Word::kPlain},
    {"in", Word::kIn},
    {"into", Word::kInto},
    {"of", Word::kOf},
    {"over", Word::kOver},
    {"the", Word::kThe},
    {"a", Word::kA},
    {"an", Word::kA},
    {"and", Word::kAnd},
    {"then", Word::kThen},
    {"for", Word::kFor},
    {"this", Word::kRemark},
    {"that", Word::kRemark},
    {"is", Word::kRemark},
    {"are", Word::kRemark},
    {"will", Word::kRemark},
    {"you", Word::kRemark},
    {"your", Word::kRemark},
    {"note", Word::kRemark},
    {"remember", Word::kRemark},
    {"covers", Word::kRemark},
    {"should", Word::kRemark},
    {"may", Word::kRemark},
    {"now", Word::kRemark},
    {"here", Word::kRemark},
    {"one", Word::kOther, 1},
    {"two", Word::kOther, 2},
    {"three", Word::kOther, 3},
    {"four", Word::kOther, 4},
    {"five", Word::kOther, 5},
    {"six", Word::kOther, 6},
    {"seven", Word::kOther, 7},
    {"eight", Word::kOther, 8},
    {"nine", Word::kOther, 9},
    {"ten", Word::kOther, 10},
    {"eleven", Word::kOther, 11},
    {"twelve", Word::kOther, 12},
};

}  // namespace

std::optional<PackedWord> Pack(std::string_view word) {
  if (word.size() > 16) return std::nullopt;
  PackedWord packed;
  for (size_t i = 0; i < word.size(); ++i) {
    const char c = word[i] >= 'A' && word[i] <= 'Z' ? static_cast<char>(word[i] | 0x20) : word[i];
    (i < 8 ? packed.low : packed.high) |= static_cast<uint64_t>(static_cast<uint8_t>(c))
                                          << (i % 8 * 8);
  }
  return packed;
}

Vocabulary::Vocabulary() {
  for (const Known& known : kKnown) {
    Insert(*Pack(known.text), known.word, known.number);
  }
}

const VocabularyEntry* Vocabulary::Find(std::string_view word) const {
  const auto packed = Pack(word);
  return packed.has_value() ? Find(*packed) : nullptr;
}

void Vocabulary::Insert(const PackedWord& packed, Word word, uint8_t number) {
  size_t i = Slot(packed);
  while (entries_[i].packed != PackedWord{}) i = (i + 1) % kSlots;
  entries_[i] = {packed, word, number};
}

bool Vocabulary::Define(std::string_view name, TextStitch meaning) {
  ROWPROOF_CHECK(meaning == TextStitch::kPlain || meaning == TextStitch::kDrop);
  if (name.empty() || name.size() > kLongestStitchName || defined_ == kMostDefinedStitches) {
    return false;
  }
  for (const char c : name) {
    if (!((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'))) return false;
  }
  // A single letter is a colour, and x the times sign.
  if (name.size() == 1) return false;
  const Word word = meaning == TextStitch::kPlain ? Word::kDefinedPlain : Word::kDefinedDrop;
  const PackedWord packed = *Pack(name);
  ++defined_;
  if (const VocabularyEntry* entry = Find(packed); entry != nullptr) {
    if (!IsStitchWord(entry->word)) return false;
    entries_[static_cast<size_t>(entry - entries_.data())].word = word;
    return true;
  }
  Insert(packed, word, 0);
  return true;
}

bool IsStitchWord(Word word) {
  return (word >= Word::kSc && word <= Word::kSs) || word == Word::kDefinedPlain ||
         word == Word::kDefinedDrop;
}

std::optional<TextStitch> MeaningOf(Word word, std::optional<chart::Terms> terms) {
  const auto by_terms = [&](TextStitch us, TextStitch uk) -> std::optional<TextStitch> {
    if (!terms.has_value()) return std::nullopt;
    return *terms == chart::Terms::kUs ? us : uk;
  };
  switch (word) {
    case Word::kSc:
      return TextStitch::kSingleCrochet;
    case Word::kSsc:
    case Word::kSdc:
      return TextStitch::kSpike;
    case Word::kMdc:
    case Word::kMtr:
      return TextStitch::kMosaicDrop;
    case Word::kHdc:
    case Word::kHtr:
      return TextStitch::kHalfDouble;
    case Word::kDc:
      return by_terms(TextStitch::kDouble, TextStitch::kSingleCrochet);
    case Word::kTr:
      return by_terms(TextStitch::kTreble, TextStitch::kDouble);
    case Word::kDtr:
      return by_terms(TextStitch::kDoubleTreble, TextStitch::kTreble);
    case Word::kTrtr:
      return TextStitch::kDoubleTreble;
    case Word::kSs:
      return TextStitch::kSlip;
    case Word::kDefinedPlain:
      return TextStitch::kPlain;
    case Word::kDefinedDrop:
      return TextStitch::kDrop;
    default:
      return std::nullopt;
  }
}

std::optional<chart::Terms> TermsOfWord(Word word) {
  switch (word) {
    case Word::kSc:
    case Word::kSsc:
    case Word::kMdc:
    case Word::kHdc:
    case Word::kSkip:
    case Word::kSingle:
      return chart::Terms::kUs;
    case Word::kSdc:
    case Word::kMtr:
    case Word::kHtr:
    case Word::kMiss:
      return chart::Terms::kUk;
    default:
      return std::nullopt;
  }
}

}  // namespace rowproof::rows
