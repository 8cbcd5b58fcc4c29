// Designs and reports that several tests of this folder start from. All are invented.
#ifndef ROWPROOF_TESTS_DOMAIN_TESTCALLS_SAMPLE_REPORTS_H_
#define ROWPROOF_TESTS_DOMAIN_TESTCALLS_SAMPLE_REPORTS_H_

#include <random>
#include <string>

#include "services/domain/chart/design.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/writer.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

// 20 rows of 24 stitches; "S" as drawn, "L" with stitches 5-12 three times and rows 5-8 twice: 24
// rows of 40 stitches. Two-face: odd rows RS.
chart::Design SampleDesign();

// A materials whose fringe has every yarn, so that any of them may be reported.
estimate::Materials MaterialsOfAllYarns();

// A whole and valid report on size L of SampleDesign.
Report SampleReport();

FormHeading SampleHeading();
FormNotes SampleNotes();

// A valid report on a size of SampleDesign, with anything that a form can carry.
Report RandomReport(std::mt19937& random);

// The report as a form carries it: texts normalised, the size and version of the heading.
Report AsCarried(Report report, const FormHeading& heading);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_TESTS_DOMAIN_TESTCALLS_SAMPLE_REPORTS_H_
