// The fill-in form of a seat: plain text that can be mailed, filled in with any editor, and read
// back. The grammar, and what mail may do to the text without harm, is in grammar.md beside this
// file. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_FORM_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_FORM_H_

#include <cstddef>
#include <string>

namespace rowproof::testcalls {

inline constexpr size_t kFormColumns = 76;
inline constexpr size_t kFormHelpColumns = 60;  // so that a few rounds of quoting wrap no help line

// What the form says about itself. It holds no secret: whoever sends it back still has to sign in.
struct FormHeading {
  std::string seat;  // resource name, "patterns/x/testCalls/y/seats/z"
  int version = 0;
  std::string size;
  int first_row_number = 1;  // the number that the pattern gives to worked row 1
  bool operator==(const FormHeading&) const = default;
};

struct FormFinding {
  int line = 0;          // of the text given, from 1
  int column = 0;        // in characters, from 1
  bool error = true;     // otherwise a note: something was ignored
  std::string field;     // path in Report, or "seat", ...; empty if it is not known
  std::string sentence;  // without line and full stop: "\"hand\": please answer right or left"
  bool operator==(const FormFinding&) const = default;
};

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_FORM_H_
