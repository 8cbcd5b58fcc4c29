// The fill-in form of a seat: plain text that can be mailed, filled in with any editor, and read
// back. The grammar, and what mail may do to the text without harm, is in grammar.md beside this
// file. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_FORM_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_FORM_H_

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/errors.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

inline constexpr size_t kFormColumns = 76;
inline constexpr size_t kFormHelpColumns = 60;  // so that a few rounds of quoting wrap no help line
inline constexpr size_t kLongestForm = size_t{512} * 1024;  // bytes
inline constexpr size_t kMostFormLines = 16'000;
inline constexpr size_t kMostFormFindings = 200;

// What the form says about itself. It holds no secret: whoever sends it back still has to sign in.
struct FormHeading {
  std::string seat;  // resource name, "patterns/x/testCalls/y/seats/z"
  int version = 0;
  std::string size;
  int first_row_number = 1;  // the number that the pattern gives to worked row 1
  bool operator==(const FormHeading&) const = default;
};

// What is printed for the tester's eyes alone and not read back.
struct FormNotes {
  std::string pattern_title;
  std::string call_title;
  std::string deadline;  // civil date; empty: none
  int rows = 0;          // worked rows of the size
  int stitches = 0;
  // Asked for, in the order of estimate::kYarnColoursAsListed.
  std::vector<estimate::YarnColour> yarns = {estimate::YarnColour::kA, estimate::YarnColour::kB};
  // What the border is worked in, if there is one: of a colour of the rows it is asked whether
  // the border is in the yarn used.
  std::optional<estimate::YarnColour> border;
  std::vector<std::string> terms;     // sentences: TermsInWords
  std::vector<std::string> cautions;  // sentences: those of the estimate; rest breaks, the freedom
                                      // to stop and the care of personal data are always printed
};

// The form, empty or with the answers of `prefilled` (which must be valid; its size and version
// give way to the heading's). Texts are printed as NormalisedText.
std::string WriteForm(const FormHeading& heading, const FormNotes& notes, const Report* prefilled);

struct FormFinding {
  int line = 0;          // of the text given, from 1
  int column = 0;        // in characters, from 1
  bool error = true;     // otherwise a note: something was ignored
  std::string field;     // path in Report, or "seat", ...; empty if it is not known
  std::string sentence;  // without line and full stop: "\"hand\": please answer right or left"
  bool operator==(const FormFinding&) const = default;
};

// "Line 41, "hand": please answer right or left."
std::string Sentence(const FormFinding& finding);

// A question of the form.
struct FormQuestion {
  int line = 0;       // of the text given; 0: the form has no such question
  std::string label;  // "yarn B length used"
};

struct FormReading {
  FormHeading heading;
  Report report;  // rows counted from worked row 1; what could not be read is left at its default
  std::vector<FormFinding> findings;              // by line, kMostFormFindings at most
  int error_count = 0;                            // true total
  std::map<std::string, FormQuestion> questions;  // by the path in Report that each answers
  bool complete() const { return error_count == 0; }
};

// What is wrong with a value of the report that was read from a form, by the question that it
// answers: "Line 70, "yarn B length used", must be between 0.01 and 100000 m (got "-3")." A value
// that no question answers keeps its path.
std::string Sentence(const FieldViolation& violation, const FormReading& reading);

// Reads a form back. Everything in it is in the report or named in a finding; a finding at line 0
// is about the form as a whole. The caller checks that the heading is the seat's own, and the
// report by Validate. INVALID_ARGUMENT ("form_text") only if the text is over a limit, is not UTF-8
// or holds U+0000.
absl::StatusOr<FormReading> ReadForm(std::string_view text);

// A text as the form can carry it: runs of blanks (also U+00A0 and tabs) are one blank, none at the
// ends of a line; CRLF is a line feed; without `multi_line` a line feed is a blank too.
std::string NormalisedText(std::string_view text, bool multi_line);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_FORM_H_
