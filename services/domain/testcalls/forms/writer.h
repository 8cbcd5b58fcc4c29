// Writes the form of a seat (form.h). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_WRITER_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_WRITER_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/estimate/materials.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

// What is printed for the tester's eyes alone and not read back.
struct FormNotes {
  std::string pattern_title;
  std::string call_title;
  std::string deadline;  // civil date; empty: none
  int rows = 0;          // worked rows of the size
  int stitches = 0;
  // Asked for, in the order of estimate::kYarnColoursAsListed.
  std::vector<estimate::YarnColour> yarns = {estimate::YarnColour::kA, estimate::YarnColour::kB};
  // What the pattern calls the colours, from A on; empty: by their letters.
  std::vector<std::string> colour_names;
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

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_WRITER_H_
