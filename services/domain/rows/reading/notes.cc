#include "services/domain/rows/reading/notes.h"

#include "fmt/format.h"
#include "services/domain/rows/reading/sizes.h"

namespace rowproof::rows {
namespace {

bool EndsPhrase(const Token& token) {
  return token.kind == TokenKind::kEnd || token.is('.') || token.is(',') || token.is(';') ||
         token.is('(') || token.is(')') || token.is('-');
}

bool IsParting(const Token& token) { return token.is('=') || token.is(':') || token.is('-'); }

// "Terms: US", "written in UK terms". A line that names both declares neither, unless it begins so.
bool ReadTerms(const RowReading& line, TextDocument& document) {
  const auto system = [&](const Token& token) -> std::optional<chart::Terms> {
    if (line.TextOf(token) == "US") return chart::Terms::kUs;
    if (line.TextOf(token) == "UK") return chart::Terms::kUk;
    return std::nullopt;
  };
  std::optional<chart::Terms> found;
  bool both = false;
  if (line.Peek().is(Word::kTerms) && IsParting(line.Peek(1))) {
    found = system(line.Peek(2));
  } else {
    for (size_t i = 0; line.Peek(i).kind != TokenKind::kEnd; ++i) {
      const auto named = system(line.Peek(i));
      if (!named.has_value()) continue;
      const bool terms = line.Peek(i + 1).is(Word::kTerms) ||
                         (line.Peek(i + 1).is(Word::kCrochet) && line.Peek(i + 2).is(Word::kTerms));
      if (!terms) continue;
      both |= found.has_value() && *found != *named;
      found = named;
    }
  }
  if (!found.has_value() || both || document.terms_declared) return found.has_value();
  document.terms = found;
  document.terms_declared = true;
  return true;
}

// "Foundation: with colour A ch 54 (70, 86)", "With A, ch 54.", "Ch 54".
bool ReadFoundation(RowReading& line, NoteReading& note) {
  const bool named = line.Take(Word::kFoundation);
  if (!note.before_rows || note.document.foundation.has_value()) return named;
  TextFoundation foundation;
  for (bool first = true; !line.AtEnd(); first = false) {
    if (line.Take(Word::kWith) || line.Take(Word::kUsing)) {
      line.Take(Word::kColour) || line.Take(Word::kYarn);
      chart::Colour colour = chart::Colour::kA;
      if (line.ReadColour(false, &colour) == Match::kYes) foundation.colour = colour;
      line.Take(',');
      if (!named && !line.Peek().is(Word::kCh)) return false;
      continue;
    }
    const bool chains = line.Peek().is(Word::kCh) &&
                        (line.AtNumber(1) || (line.Peek(1).is('-') && line.AtNumber(2)));
    if (chains && line.SpaceLength() == 0) {
      foundation.at = line.place();
      line.Pass(line.AtNumber(1) ? 1 : 2);
      if (!line.ReadSized(&foundation.chains)) return true;
      break;
    }
    if (named && line.AtNumber()) {
      const size_t start = line.at();
      foundation.at = line.place();
      if (!line.ReadSized(&foundation.chains)) return true;
      if (line.Peek().is(Word::kCh)) break;
      foundation.chains = SizedCount();
      line.MoveTo(start);
    }
    if (!named && (first || !line.Peek().is(Word::kCh))) return false;
    line.Pass();
  }
  if (foundation.chains.Largest() == 0) return named;
  for (; !line.AtEnd(); line.Pass()) foundation.ring |= line.Peek().is(Word::kRing);
  note.document.foundation = std::move(foundation);
  return true;
}

bool IsPartOfName(const Token& token) {
  if (token.kind == TokenKind::kNumber) return true;
  return token.kind == TokenKind::kWord && !IsStitchWord(token.word) && token.word != Word::kCh &&
         token.word != Word::kSkip && token.word != Word::kRep;
}

void AddColour(NoteReading& note, const std::string& name, chart::Colour colour) {
  constexpr size_t kMostNames = 2 * chart::kMostColours;
  if (note.context.colours.size() >= kMostNames) return;
  std::vector<std::string> words = WordsOfName(name, note.context.words);
  for (const ColourWords& known : note.context.colours) {
    if (known.words == words) return;
  }
  note.context.colours.push_back({std::move(words), colour});
  note.document.colours.push_back({name, colour});
}

// A to H alone; passes it.
std::optional<chart::Colour> TakeLetter(RowReading& line) {
  const std::string_view letter = line.TextOf(line.Peek());
  if (letter.size() != 1 || letter[0] < 'A' || letter[0] > 'H') return std::nullopt;
  line.Pass();
  return static_cast<chart::Colour>(letter[0] - 'A');
}

// A name of some words, up to the end of its phrase; empty if there is none.
std::string TakeColourName(RowReading& line, const NoteReading& note) {
  constexpr size_t kLongestName = 4;  // words
  const size_t begin = line.at();
  while (IsPartOfName(line.Peek())) line.Pass();
  const size_t words = line.at() - begin;
  if (words == 0 || words > kLongestName || !EndsPhrase(line.Peek())) return {};
  return std::string(note.context.text.substr(
      line.token(begin).begin, line.token(line.at() - 1).end - line.token(begin).begin));
}

// "A dark blue, B cream" after "Colours:".
bool ReadColourList(RowReading& line, NoteReading& note) {
  std::vector<std::pair<std::string, chart::Colour>> listed;
  do {
    const auto colour = TakeLetter(line);
    if (!colour.has_value()) return false;
    const std::string name = TakeColourName(line, note);
    if (name.empty()) return false;
    listed.emplace_back(name, *colour);
  } while (line.Take(','));
  for (const auto& [name, colour] : listed) AddColour(note, name, colour);
  return true;
}

// "Colour A: dark blue", "A = cream"; "MC: colour A", "MC = A"; "Colours: A dark blue, B cream".
bool ReadColourKey(RowReading& line, NoteReading& note) {
  const bool named = line.Take(Word::kColour) || line.Take(Word::kYarn);
  if (named && line.Peek().is(':')) {
    line.Pass();
    return ReadColourList(line, note);
  }
  const std::string_view first = line.TextOf(line.Peek());
  if (const auto colour = TakeLetter(line); colour.has_value()) {
    const bool parted = line.Peek().is('=') || line.Peek().is(':') ||
                        (named && (line.Peek().is('-') || line.Peek().is('(')));
    if (!parted) return false;
    line.Pass();
    const std::string name = TakeColourName(line, note);
    if (name.empty()) return false;
    AddColour(note, name, *colour);
    return true;
  }
  if (named || line.Peek().kind != TokenKind::kWord || line.Peek().word != Word::kOther) {
    return false;
  }
  const std::string name(first);
  line.Pass();
  if (!IsParting(line.Peek()) && !line.Peek().is('(')) return false;
  line.Pass();
  line.Take(Word::kColour) || line.Take(Word::kYarn);
  const auto letter = TakeLetter(line);
  if (!letter.has_value() || !EndsPhrase(line.Peek())) return false;
  AddColour(note, name, *letter);
  return true;
}

// "drop", "drop stitch", "plain", "spike single crochet", "mosaic dc": what a definition means.
std::optional<TextStitch> ReadMeaning(RowReading& line) {
  line.Take(Word::kA) || line.Take(Word::kThe);
  if (line.Peek().is(Word::kDrop) || line.Peek().is(Word::kPlain)) {
    const bool drop = line.Peek().is(Word::kDrop);
    line.Pass();
    line.Take(Word::kSt);
    return drop ? TextStitch::kDrop : TextStitch::kPlain;
  }
  const bool named = line.Peek().is(Word::kSpike) || line.Peek().is(Word::kMosaic);
  if (named && line.Peek(1).is(Word::kSt)) {
    line.Pass(2);
    return TextStitch::kDrop;
  }
  const bool drop = named || line.Peek().is(Word::kSsc) || line.Peek().is(Word::kSdc) ||
                    line.Peek().is(Word::kMdc) || line.Peek().is(Word::kMtr);
  TextStitch stitch = TextStitch::kSlip;
  if (!drop || !line.AtStitch() || !line.ReadStitch(&stitch)) return std::nullopt;
  line.Take(Word::kSt);
  return TextStitch::kDrop;
}

// "xs = drop", "xs: drop stitch", "Special stitch: xs = drop", "long sc (xs): drop".
bool ReadDefinition(RowReading& line, NoteReading& note) {
  constexpr size_t kFarthest = 12;
  size_t parting = 0;  // the first equals sign, else the first colon or dash
  for (size_t i = 0; i < kFarthest && line.Peek(i).kind != TokenKind::kEnd; ++i) {
    if (parting == 0 && IsParting(line.Peek(i))) parting = i;
    if (!line.Peek(i).is('=')) continue;
    parting = i;
    break;
  }
  if (parting == 0) return false;
  size_t name = parting - 1;
  if (parting > 3 && line.Peek(parting - 1).is(')') && line.Peek(parting - 3).is('(')) {
    name = parting - 2;
  } else if (parting != 1 && !(line.Peek(parting).is('=') && line.Peek(parting - 2).is(':'))) {
    return false;
  }
  const Token& token = line.Peek(name);
  if (token.kind != TokenKind::kWord && !token.is('x')) return false;
  line.Pass(parting + 1);
  const auto meaning = ReadMeaning(line);
  if (!meaning.has_value() || !EndsPhrase(line.Peek())) return false;
  // "ssc - spike single crochet" says nothing new.
  const auto known = MeaningOf(token.word, chart::Terms::kUs);
  if (known == TextStitch::kSpike || known == TextStitch::kMosaicDrop) {
    if (*meaning == TextStitch::kDrop) return true;
  }
  const std::string text(line.TextOf(token));
  if (!note.context.words.Define(text, *meaning)) {
    return line.Fail(TextFindingCode::kTwoReadings, static_cast<size_t>(&token - &line.token(0)),
                     fmt::format("a stitch name of 2 to {} letters without another meaning",
                                 kLongestStitchName));
  }
  note.document.definitions.push_back({text, *meaning});
  return true;
}

}  // namespace

std::vector<std::string> WordsOfName(std::string_view name, const Vocabulary& words) {
  std::vector<Token> tokens;
  Tokenize(name, 0, name.size(), 1, words, tokens);
  std::vector<std::string> texts;
  for (const Token& token : tokens) {
    if (token.kind == TokenKind::kEnd) break;
    texts.push_back(LowerText(name.substr(token.begin, token.end - token.begin)));
  }
  return texts;
}

bool ReadNote(NoteReading& note, const std::vector<Token>& tokens,
              std::optional<ReadingError>* error) {
  TextRow none;
  RowReading line(note.context, tokens, none);
  while (line.Peek().is('?') || line.Peek().is('>') || line.Peek().is('-') || line.Peek().is('*')) {
    line.Pass();
  }
  const size_t start = line.at();
  const bool terms = ReadTerms(line, note.document);
  for (const auto read : {ReadSizes, ReadFoundation, ReadColourKey, ReadDefinition}) {
    line.MoveTo(start);
    if (read(line, note)) {
      *error = line.error();
      return true;
    }
    // Only a definition fails by itself; what the others tried is no error.
    if (read == ReadDefinition) *error = line.error();
  }
  return terms || error->has_value();
}

}  // namespace rowproof::rows
