// A form's text as mail delivers it, undone into lines and answers that know their place.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_LINES_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_LINES_H_

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/questions.h"

namespace rowproof::testcalls {

struct Place {
  int line = 0;    // from 1
  int column = 0;  // in characters, from 1
};

// A text in which each byte knows its original place.
struct PlacedText {
  std::string text;
  std::vector<Place> at;  // one for each byte
  bool empty() const { return text.empty(); }
  // The place of a byte, or of the end.
  Place PlaceOf(size_t offset) const;
  void Append(char c, Place place);
  void Append(const PlacedText& other);
  PlacedText From(size_t offset) const;
};

enum class LineKind : uint8_t { kBlank, kHelp, kSignature, kWords };

struct FormLine {
  LineKind kind = LineKind::kBlank;
  int number = 0;
  PlacedText words;  // without quote marks; runs of blanks are one blank
};

// The lines of a text in UTF-8. Control characters are left out and become findings.
std::vector<FormLine> ReadLines(std::string_view text, std::vector<FormFinding>& findings);

// What a line of words (as ReadLines makes them) would be read as.
LineKind KindOf(std::string_view words);
// The label with which a line begins; `after` is set to the first byte after its colon.
std::optional<Label> LabelAtStart(std::string_view words, size_t* after);
// Whether a line begins like a label, known or not ("hok:"); its folded words.
std::optional<std::string> WordsBeforeColon(std::string_view words);

// A text as the form can carry it: runs of blanks (also U+00A0 and tabs) are one blank, none at the
// ends of a line; CRLF is a line feed; without `multi_line` a line feed is a blank too.
std::string NormalisedText(std::string_view text, bool multi_line);

// As text::Folded: the form in which labels, numbers and choices are compared.
PlacedText Folded(const PlacedText& text);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_LINES_H_
