// Reads a form of a seat (form.h) back. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_READER_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_READER_H_

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/errors.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

inline constexpr size_t kLongestForm = size_t{512} * 1024;  // bytes
inline constexpr size_t kMostFormLines = 16'000;
inline constexpr size_t kMostFormFindings = 200;

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

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_READER_H_
