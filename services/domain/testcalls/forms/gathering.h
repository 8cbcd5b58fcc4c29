// The answers of a form, gathered from its lines. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_GATHERING_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_GATHERING_H_

#include <vector>

#include "services/domain/testcalls/forms/lines.h"
#include "services/domain/testcalls/forms/questions.h"

namespace rowproof::testcalls {

struct Answer {
  Label label;
  int erratum = -1;  // index of the section that it belongs to
  PlacedText value;  // of remarks, lines are separated by line feeds
  Place place;       // of the label
};

// The answers in their order, empty ones included; what belongs to none becomes a finding.
std::vector<Answer> GatherAnswers(const std::vector<FormLine>& lines,
                                  std::vector<FormFinding>& findings);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_GATHERING_H_
