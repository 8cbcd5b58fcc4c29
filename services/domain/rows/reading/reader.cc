#include "services/domain/rows/reading/reader.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/rows/reading/findings.h"
#include "services/domain/rows/reading/head.h"
#include "services/domain/rows/reading/lines.h"
#include "services/domain/rows/reading/notes.h"
#include "services/domain/rows/reading/reference.h"
#include "services/domain/rows/reading/row.h"
#include "services/domain/rows/reading/steps.h"
#include "services/domain/rows/text_rows.h"
#include "services/domain/rows/writing/writer.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/text/utf8.h"
#include "services/text/wrapping.h"

namespace rowproof::rows {
namespace {

absl::Status CheckText(std::string_view text) {
  const std::string accepted = fmt::format(
      "text in UTF-8 of at most {} bytes without control characters other than line ends, tabs and "
      "form feeds",
      kLongestText);
  if (text.size() > kLongestText) {
    return InvalidField("text", fmt::format("{} bytes", text.size()), accepted);
  }
  if (!text::IsUtf8(text)) return InvalidField("text", "bytes that are not UTF-8", accepted);
  for (size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<uint8_t>(text[i]);
    const bool passes = byte == '\n' || byte == '\r' || byte == '\t' || byte == '\f';
    const bool high = byte == 0xc2 && static_cast<uint8_t>(text[i + 1]) < 0xa0;
    if ((byte < 0x20 && !passes) || byte == 0x7f || high) {
      return InvalidField("text", fmt::format("a control character at byte {}", i + 1), accepted);
    }
  }
  return absl::OkStatus();
}

absl::Status CheckSettings(const ReaderSettings& settings) {
  if (settings.sizes.size() > static_cast<size_t>(chart::kMostSizes)) {
    return InvalidField("sizes", std::to_string(settings.sizes.size()),
                        fmt::format("at most {} sizes", chart::kMostSizes));
  }
  for (size_t i = 0; i < settings.sizes.size(); ++i) {
    if (auto status = ValidateText(fmt::format("sizes[{}]", i), settings.sizes[i],
                                   chart::kLongestSizeName, false);
        !status.ok()) {
      return status;
    }
  }
  if (settings.colours.size() > kMostColourNames) {
    return InvalidField("colour_names", std::to_string(settings.colours.size()),
                        fmt::format("at most {} names", kMostColourNames));
  }
  for (size_t i = 0; i < settings.colours.size(); ++i) {
    const std::string field = fmt::format("colour_names[{}].name", i);
    if (settings.colours[i].name.empty()) return MissingField(field, "a colour's name");
    RETURN_IF_ERROR(ValidateText(field, settings.colours[i].name, kLongestColourName, false));
  }
  return absl::OkStatus();
}

constexpr int kUnknownSize = -2;
constexpr size_t kLongestNote = 16 << 10;  // bytes that are looked at

class Reader {
 public:
  Reader(std::string_view text, const ReaderSettings& settings, const Stop& stop)
      : settings_(settings), stop_(stop) {
    context_.text = text;
    document_.sizes =
        settings.sizes.empty() ? std::vector<std::string>{"one size"} : settings.sizes;
    context_.sizes = document_.size_count();
    document_.colours = settings.colours;
    for (const ColourName& colour : settings.colours) {
      context_.colours.push_back({WordsOfName(colour.name, context_.words), colour.colour});
    }
  }

  absl::Status Define() {
    for (size_t i = 0; i < settings_.definitions.size(); ++i) {
      const DefinedStitch& stitch = settings_.definitions[i];
      const bool meaning =
          stitch.meaning == TextStitch::kPlain || stitch.meaning == TextStitch::kDrop;
      if (!meaning || !context_.words.Define(stitch.name, stitch.meaning)) {
        return InvalidField(fmt::format("definitions[{}].name", i), stitch.name,
                            fmt::format("one of at most {} names of 2 to {} letters without "
                                        "another meaning",
                                        kMostDefinedStitches, kLongestStitchName));
      }
      document_.definitions.push_back(stitch);
    }
    return absl::OkStatus();
  }

  // Not whole if the work has to stop.
  TextDocument Read() {
    ReadNotes();
    SettleTerms();
    for (const TextLine& line : lines_) {
      if (StopsAt(line)) return {};
      line.kind == TextLine::Kind::kRow ? ReadRow(line) : ReadHeading(line);
    }
    SettleMixedTerms();
    std::vector<TextFinding> references;
    CheckReferences(document_, references);
    for (TextFinding& finding : references) findings_.Add(std::move(finding));
    findings_.MoveTo(document_);
    return std::move(document_);
  }

 private:
  // Whether the work has to stop before this line, which will be looked at whole.
  bool StopsAt(const TextLine& line) const { return stop_.After(line.end - line.begin); }

  const std::vector<Token>& TokensOf(const TextLine& line) {
    tokens_.clear();
    Tokenize(context_.text, line.begin, line.end, line.line, context_.words, tokens_);
    return tokens_;
  }

  std::string TextOf(const Token& token) const {
    return text::Excerpt(context_.text.substr(token.begin, token.end - token.begin));
  }

  void Report(const ReadingError& error, int row) {
    const Token& token = tokens_[error.token];
    findings_.Add({error.code,
                   chart::Severity::kError,
                   {token.line, token.column},
                   row,
                   TextOf(token),
                   error.fits});
  }

  // The text around the rows is read first: it says how to read them.
  void ReadNotes() {
    NoteReading note{context_, document_, !settings_.sizes.empty(), true};
    std::vector<TextFinding> passed;  // since the last row
    int64_t more_passed = 0;
    ForEachLine(context_.text, [&](const TextLine& line) {
      if (StopsAt(line)) return;
      if (line.kind != TextLine::Kind::kOther) {
        KeepLine(line);
        if (line.kind == TextLine::Kind::kRow) {
          note.before_rows = note.before_rows && !IsRow(line);
          for (TextFinding& finding : passed) findings_.Add(std::move(finding));
          passed.clear();
          findings_.CountNotes(std::exchange(more_passed, 0));
        }
        return;
      }
      std::optional<ReadingError> error;
      // Of a line as long as a book's chapter the beginning is prose enough.
      TextLine beginning = line;
      beginning.end = CutTo(kLongestNote, line);
      const bool understood = ReadNote(note, TokensOf(beginning), &error);
      if (document_.terms_declared && terms_at_.line == 0) {
        terms_at_ = {tokens_.front().line, tokens_.front().column};
      }
      if (error.has_value()) return Report(*error, -1);
      if (understood || note.before_rows) return;
      if (passed.size() < static_cast<size_t>(kMostTextFindings)) {
        passed.push_back(PassedOver());
      } else {
        ++more_passed;
      }
    });
  }

  // The line's end, or the last whole character within its first bytes.
  size_t CutTo(size_t bytes, const TextLine& line) const {
    const std::string_view whole = context_.text.substr(line.begin, line.end - line.begin);
    return line.begin + text::FirstBytes(whole, bytes).size();
  }

  // Prose may begin as a row does: "Row 1 is a RS row."
  bool IsRow(const TextLine& line) {
    TextRow row;
    TextLine beginning = line;
    beginning.end = CutTo(kLongestNote, line);
    RowReading reading(context_, TokensOf(beginning), row);
    while (reading.Peek().is('?') || reading.Peek().is('>')) reading.Pass();
    return ReadHead(reading) || reading.error().has_value();
  }

  void KeepLine(const TextLine& line) {
    if (static_cast<int>(lines_.size()) < kMostTextRows) return lines_.push_back(line);
    if (std::exchange(too_many_rows_, true)) return;
    findings_.Add({TextFindingCode::kTooMuch,
                   chart::Severity::kError,
                   {line.line, 1},
                   -1,
                   "",
                   fmt::format("at most {} rows in a text", kMostTextRows)});
  }

  TextFinding PassedOver() const {
    const Token& first = tokens_.front();
    return {TextFindingCode::kPassedOver,
            chart::Severity::kNote,
            {first.line, first.column},
            -1,
            text::Excerpt(context_.text.substr(first.begin, tokens_.back().begin - first.begin)),
            ""};
  }

  // By the settings, the text's declaration, or the first word in a row that one system alone has.
  void SettleTerms() {
    if (settings_.terms.has_value()) {
      if (document_.terms.has_value() && document_.terms != settings_.terms) {
        findings_.Add({TextFindingCode::kContradiction, chart::Severity::kError, terms_at_, -1,
                       document_.terms == chart::Terms::kUs ? "US" : "UK",
                       "the terms declared with the text"});
      }
      document_.terms = settings_.terms;
      document_.terms_declared = true;
    }
    for (const TextLine& line : lines_) {
      if (document_.terms.has_value() || StopsAt(line)) break;
      if (line.kind != TextLine::Kind::kRow) continue;
      TextLine beginning = line;
      beginning.end = CutTo(kLongestRow, line);
      for (const Token& token : TokensOf(beginning)) {
        if (token.kind != TokenKind::kWord) continue;
        document_.terms = TermsOfWord(token.word);
        if (document_.terms.has_value()) break;
      }
    }
    context_.terms = document_.terms;
  }

  // "Size L:", "All sizes:".
  void ReadHeading(const TextLine& line) {
    std::string_view text = context_.text.substr(line.begin, line.end - line.begin);
    text = text.substr(0, text.rfind(':'));
    const std::vector<Token>& tokens = TokensOf(line);
    size_t word = 0;
    while (tokens[word].is(Word::kFor) || tokens[word].is('>') || tokens[word].is('?')) ++word;
    if (!tokens[word].is(Word::kSize)) {
      only_size_ = -1;
      return;
    }
    const Token& first = tokens[word + 1];
    const std::string_view name =
        first.begin >= line.begin + text.size() ? "" : text.substr(first.begin - line.begin);
    for (int size = 0; size < document_.size_count(); ++size) {
      const std::string& known = document_.sizes[static_cast<size_t>(size)];
      if (known == name || LowerText(known) == LowerText(Trimmed(name))) {
        only_size_ = size;
        return;
      }
    }
    only_size_ = kUnknownSize;
    Report({TextFindingCode::kUnknownSize, word + 1, "the name of one of the sizes"}, -1);
  }

  static std::string Trimmed(std::string_view name) {
    while (!name.empty() && (name.back() == ' ' || name.back() == '\t')) name.remove_suffix(1);
    return std::string(name);
  }

  void ReadRow(const TextLine& line) {
    TextLine beginning = line;
    beginning.end = CutTo(kLongestRow, line);
    const std::vector<Token>& tokens = TokensOf(beginning);
    TextRow row;
    row.only_size = only_size_;
    RowReading reading(context_, tokens, row);
    while (reading.Peek().is('?') || reading.Peek().is('>')) reading.Pass();
    row.at = reading.place();
    row.begin = reading.Peek().begin;
    row.end = line.end;
    const bool head = ReadHead(reading);
    if (!head && !reading.error().has_value()) {
      if (!document_.rows.empty()) findings_.Add(PassedOver());
      return;
    }
    if (beginning.end != line.end) {
      reading.Fail(TextFindingCode::kTooMuch, 0,
                   fmt::format("a row of at most {} bytes", kLongestRow));
    } else if (head) {
      AtReference(reading) ? ReadReference(reading) : ReadSteps(reading);
    }
    const int index = static_cast<int>(document_.rows.size());
    if (const auto& error = reading.error(); error.has_value()) {
      row.body = TextRow::Body::kUnread;
      // Terms that are not known are one fault of the text, not one of each row.
      const bool terms = error->code == TextFindingCode::kUnknownTerms;
      if (!terms || !std::exchange(unknown_terms_, true)) Report(*error, index);
    }
    if (reading.mixed().has_value()) NoteMixedTerms(tokens[*reading.mixed()], index);
    document_.rows.push_back(std::move(row));
  }

  void NoteMixedTerms(const Token& token, int row) {
    const bool us = *document_.terms == chart::Terms::kUs;
    TextFinding finding{TextFindingCode::kMixedTerms,
                        chart::Severity::kWarning,
                        {token.line, token.column},
                        row,
                        TextOf(token),
                        us ? "US terms" : "UK terms"};
    if (!mixed_.has_value()) mixed_ = finding;
    findings_.Add(std::move(finding));
  }

  // Words of both systems and no declaration: what dc, tr and dtr mean is not certain.
  void SettleMixedTerms() {
    if (!mixed_.has_value() || document_.terms_declared) return;
    bool depends = false;
    for (TextRow& row : document_.rows) {
      if (!row.depends_on_terms) continue;
      depends = true;
      row.body = TextRow::Body::kUnread;
      row.steps.clear();
    }
    document_.terms.reset();
    if (!depends) return;
    findings_.Add({TextFindingCode::kUnknownTerms, chart::Severity::kError, mixed_->at, mixed_->row,
                   mixed_->met, "US or UK terms throughout, or a line that declares them"});
  }

  const ReaderSettings& settings_;
  const Stop& stop_;
  ReadingContext context_;
  TextDocument document_;
  TextFindings findings_;
  std::vector<TextLine> lines_;  // rows and size headings
  std::vector<Token> tokens_;    // of the line being read
  TextPlace terms_at_;           // of the text's own declaration
  int only_size_ = -1;
  bool unknown_terms_ = false;
  bool too_many_rows_ = false;
  std::optional<TextFinding> mixed_;
};

}  // namespace

std::vector<ColourName> ColourNames(const std::vector<std::string>& names) {
  std::vector<ColourName> colours;
  for (const std::string& name : names) {
    colours.push_back({name, static_cast<chart::Colour>(colours.size())});
  }
  return colours;
}

absl::StatusOr<TextDocument> ReadRows(std::string_view text, const ReaderSettings& settings,
                                      const Stop& stop) {
  RETURN_IF_ERROR(CheckText(text));
  RETURN_IF_ERROR(CheckSettings(settings));
  Reader reader(text, settings, stop);
  RETURN_IF_ERROR(reader.Define());
  TextDocument document = reader.Read();
  RETURN_IF_ERROR(stop.status());
  return document;
}

}  // namespace rowproof::rows
