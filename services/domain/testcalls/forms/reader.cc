#include "services/domain/testcalls/forms/reader.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/forms/answer_sheet.h"
#include "services/domain/testcalls/forms/answers.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/gathering.h"
#include "services/domain/testcalls/forms/lines.h"
#include "services/domain/text.h"
#include "services/text/utf8.h"
#include "services/text/wrapping.h"

namespace rowproof::testcalls {
namespace {

using estimate::YarnColour;

// Questions whose answer makes a yarn's entry in the report.
constexpr Question kOfYarnItself[] = {Question::kYarnName, Question::kYarnFibre,
                                      Question::kYarnWeightClass, Question::kYarnWraps,
                                      Question::kYarnBall};
constexpr Question kOfAmount[] = {Question::kYarnLength, Question::kYarnWeightBefore,
                                  Question::kYarnWeightAfter};

void ReadHeading(AnswerSheet& sheet, FormReading& reading) {
  const std::string seat = sheet.Text({Question::kSeat});
  if (seat.empty()) {
    sheet.Missing({Question::kSeat}, "seat", "the seat's name as in the form you were sent");
  } else if (const auto name = ParseName<SeatName>("seat", seat); !name.ok()) {
    sheet.Refuse({Question::kSeat}, "seat",
                 fmt::format("please give the seat's name as in the form you were sent, "
                             "\"patterns/.../testCalls/.../seats/...\" (you wrote \"{}\")",
                             text::Excerpt(seat)));
  } else {
    reading.heading.seat = ToString(*name);
  }
  if (!sheet.Take({Question::kVersion}, "version", ReadWholeNumber, &reading.heading.version)) {
    sheet.Missing({Question::kVersion}, "version", "the number of the version you worked from");
  }
  reading.heading.size = sheet.Text({Question::kSize});
  if (reading.heading.size.empty()) {
    sheet.Missing({Question::kSize}, "size", "the name of the size you worked");
  }
  sheet.Take({Question::kFirstRowNumber}, "first_row_number", ReadWholeNumber,
             &reading.heading.first_row_number);
  reading.report.version = reading.heading.version;
  reading.report.size = reading.heading.size;
}

void ReadHow(AnswerSheet& sheet, Report& report) {
  if (!sheet.Take({Question::kWorkedFrom}, "worked_from", ReadWorkedFrom, &report.worked_from)) {
    sheet.Missing({Question::kWorkedFrom}, "worked_from", "chart, text or both");
  }
  if (!sheet.Take({Question::kHand}, "hand", ReadHand, &report.hand)) {
    sheet.Missing({Question::kHand}, "hand", "right or left");
  }
  if (!sheet.Take({Question::kTerms}, "terms", ReadTerms, &report.terms)) {
    sheet.Missing({Question::kTerms}, "terms", "US or UK");
  }
  sheet.TakeOptional({Question::kHook}, "hook_mm", ReadLengthMm, &report.hook_mm);
  sheet.Take({Question::kEnds}, "ends", ReadEnds, &report.ends);
}

void ReadGauges(AnswerSheet& sheet, Question question, const char* field,
                std::vector<estimate::GaugeReading>& readings) {
  for (const Answer* answer : sheet.All({question})) {
    if (readings.size() >= kMostReportedReadings) {
      sheet.RefuseAt(*answer, 0, field,
                     fmt::format("please give at most {} readings", kMostReportedReadings));
      return;
    }
    estimate::GaugeReading reading;
    const std::string path = fmt::format("{}[{}]", field, readings.size());
    if (sheet.Parse(*answer, path, ReadGauge, &reading)) readings.push_back(reading);
  }
}

bool AnyAnswered(AnswerSheet& sheet, std::span<const Question> questions, YarnColour colour) {
  return std::any_of(questions.begin(), questions.end(), [&](Question question) {
    return sheet.Find({question, colour}) != nullptr;
  });
}

estimate::Yarn ReadYarnItself(AnswerSheet& sheet, YarnColour colour, const std::string& field) {
  estimate::Yarn yarn;
  yarn.name = sheet.Text({Question::kYarnName, colour});
  yarn.fibre = sheet.Text({Question::kYarnFibre, colour});
  sheet.TakeOptional({Question::kYarnWeightClass, colour}, field + ".weight_class", ReadWholeNumber,
                     &yarn.weight_class);
  sheet.TakeOptional({Question::kYarnWraps, colour}, field + ".wraps_per_inch", ReadWraps,
                     &yarn.wraps_per_inch);
  BallBand ball;
  if (sheet.Take({Question::kYarnBall, colour}, field + ".ball_band.length_m", ReadBall, &ball)) {
    yarn.ball_length_m = ball.length_m;
    yarn.ball_mass_g = ball.mass_g;
    yarn.tex = ball.tex;
  }
  return yarn;
}

// Whether a part is included in the yarn used; required if an amount is given and the form asks.
void ReadPart(AnswerSheet& sheet, Label label, const std::string& field, bool has_amount,
              bool* with) {
  if (sheet.Take(label, field, ReadYesNo, with)) return;
  if (has_amount && sheet.IsAsked(label)) sheet.Missing(label, field, "yes or no");
}

void ReadYarn(AnswerSheet& sheet, YarnColour colour, Report& report) {
  const bool has_yarn = AnyAnswered(sheet, kOfYarnItself, colour);
  const bool has_amount = AnyAnswered(sheet, kOfAmount, colour);
  const std::string field = fmt::format("yarn[{}]", report.yarn.size());
  YarnUse use;
  use.colour = colour;
  if (has_yarn) use.yarn = ReadYarnItself(sheet, colour, field + ".yarn");
  sheet.TakeOptional({Question::kYarnLength, colour}, field + ".length_m", ReadLengthM,
                     &use.length_m);
  sheet.Take({Question::kYarnLengthStep, colour}, field + ".length_step_m", ReadLengthM,
             &use.length_step_m);
  sheet.TakeOptional({Question::kYarnWeightBefore, colour}, field + ".mass_before_g", ReadMassG,
                     &use.mass_before_g);
  sheet.TakeOptional({Question::kYarnWeightAfter, colour}, field + ".mass_after_g", ReadMassG,
                     &use.mass_after_g);
  sheet.Take({Question::kYarnScaleStep, colour}, field + ".scale_step_g", ReadMassG,
             &use.scale_step_g);
  ReadPart(sheet, {Question::kYarnWithSwatch, colour}, field + ".with_swatch", has_amount,
           &use.with_swatch);
  ReadPart(sheet, {Question::kYarnWithBorder, colour}, field + ".with_border", has_amount,
           &use.with_border);
  if (has_yarn || has_amount) {
    report.yarn.push_back(std::move(use));
  } else if (use.with_swatch || use.with_border) {
    const Question question =
        use.with_swatch ? Question::kYarnWithSwatch : Question::kYarnWithBorder;
    sheet.Refuse({question, colour}, field + ".length_m",
                 "please give the length or the weights of the yarn used, or leave this empty");
  }
}

void ReadSizeAndTime(AnswerSheet& sheet, Report& report) {
  report.how_blocked = sheet.Text({Question::kHowBlocked});
  sheet.TakeOptional({Question::kWidthBefore}, "width_before_mm", ReadLengthMm,
                     &report.width_before_mm);
  sheet.TakeOptional({Question::kHeightBefore}, "height_before_mm", ReadLengthMm,
                     &report.height_before_mm);
  sheet.TakeOptional({Question::kWidthAfter}, "width_after_mm", ReadLengthMm,
                     &report.width_after_mm);
  sheet.TakeOptional({Question::kHeightAfter}, "height_after_mm", ReadLengthMm,
                     &report.height_after_mm);
  sheet.Take({Question::kTapeStep}, "tape_step_mm", ReadLengthMm, &report.tape_step_mm);
  sheet.TakeOptional({Question::kTime}, "minutes", ReadMinutes, &report.minutes);
}

// The worked row, from 1, of a row number as the pattern prints it; 0 for "none".
void ReadWorkedRow(AnswerSheet& sheet, const Label& label, int erratum, const std::string& field,
                   int first_row_number, int* row) {
  int printed = -1;
  if (!sheet.Take(label, field, ReadRow, &printed, erratum) || printed < 0) return;
  if (printed < first_row_number) {
    sheet.Refuse(label, field,
                 fmt::format("there is no row {}; the pattern begins with row {} (answer \"none\" "
                             "if you worked none)",
                             printed, first_row_number),
                 erratum);
    return;
  }
  *row = printed - first_row_number + 1;
}

void ReadErratumPlace(AnswerSheet& sheet, int section, const std::string& field,
                      int first_row_number, faults::Erratum& erratum) {
  ReadWorkedRow(sheet, {Question::kErratumRow}, section, field + ".row", first_row_number,
                &erratum.row);
  faults::StitchRange stitches;
  sheet.Take({Question::kErratumStitches}, field + ".first_stitch", ReadStitches, &stitches,
             section);
  erratum.first_stitch = stitches.first;
  erratum.last_stitch = stitches.last;
  const bool counted = sheet.Take({Question::kErratumCountedFrom}, field + ".counted_from",
                                  ReadCountedFrom, &erratum.counted_from, section);
  if (!counted && erratum.first_stitch > 0) {
    sheet.Missing({Question::kErratumCountedFrom}, field + ".counted_from",
                  "\"stitch 1\" (as the chart numbers them) or \"row start\"", section);
  }
}

void ReadErratum(AnswerSheet& sheet, int section, int first_row_number, Report& report) {
  if (!sheet.SectionIsAnswered(section)) return;
  const std::string field = fmt::format("errata[{}]", report.errata.size());
  faults::Erratum erratum;
  ReadErratumPlace(sheet, section, field, first_row_number, erratum);
  if (!sheet.Take({Question::kErratumSeenIn}, field + ".seen_in", ReadSeenIn, &erratum.seen_in,
                  section)) {
    sheet.Missing({Question::kErratumSeenIn}, field + ".seen_in", "chart, text, both or elsewhere",
                  section);
  }
  if (!sheet.Take({Question::kErratumKind}, field + ".kind", ReadErratumKind, &erratum.kind,
                  section)) {
    sheet.Missing({Question::kErratumKind}, field + ".kind",
                  "stitch, count, colour, side, repeat, materials, measurement or other", section);
  }
  erratum.was = sheet.Text({Question::kErratumWas}, section);
  erratum.should_be = sheet.Text({Question::kErratumShouldBe}, section);
  erratum.remark = sheet.Text({Question::kErratumNote}, section);
  report.errata.push_back(std::move(erratum));
}

void ReadErrata(AnswerSheet& sheet, int first_row_number, Report& report) {
  for (int section = 0; section < sheet.section_count(); ++section) {
    if (report.errata.size() >= kMostErrata) {
      sheet.RefuseSection(section, "errata",
                          fmt::format("please report at most {} errata", kMostErrata));
      return;
    }
    ReadErratum(sheet, section, first_row_number, report);
  }
}

// Each answer to the same question is a line of the remarks.
void ReadRemarks(AnswerSheet& sheet, Report& report) {
  std::string remarks;
  bool first = true;
  for (const Answer* answer : sheet.All({Question::kRemarks}, /*with_empty=*/true)) {
    if (!first) remarks += '\n';
    first = false;
    remarks += answer->value.text;
  }
  report.remarks = NormalisedText(remarks, true);
}

size_t LineCount(std::string_view text) {
  size_t lines = 1;
  for (size_t i = 0; i < text.size(); ++i) {
    const bool crlf = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
    if (text[i] == '\n' || (text[i] == '\r' && !crlf)) ++lines;
  }
  return lines;
}

absl::Status CheckLimits(std::string_view text) {
  if (text.size() > kLongestForm) {
    return InvalidField("form_text", fmt::format("{} bytes", text.size()),
                        fmt::format("a form of at most {} bytes", kLongestForm));
  }
  const size_t lines = LineCount(text);
  if (lines > kMostFormLines) {
    return InvalidField("form_text", fmt::format("{} lines", lines),
                        fmt::format("a form of at most {} lines", kMostFormLines));
  }
  if (!text::IsUtf8(text)) return InvalidField("form_text", "other bytes", "UTF-8 text");
  if (text.find('\0') != std::string_view::npos) {
    return InvalidField("form_text", "U+0000", "text without U+0000");
  }
  return absl::OkStatus();
}

void SortFindings(FormReading& reading) {
  std::stable_sort(reading.findings.begin(), reading.findings.end(),
                   [](const FormFinding& a, const FormFinding& b) {
                     return std::pair(a.line, a.column) < std::pair(b.line, b.column);
                   });
  reading.error_count =
      static_cast<int>(std::count_if(reading.findings.begin(), reading.findings.end(),
                                     [](const FormFinding& finding) { return finding.error; }));
  // Errors before notes if not all can be kept.
  if (reading.findings.size() <= kMostFormFindings) return;
  if (static_cast<size_t>(reading.error_count) >= kMostFormFindings) {
    std::erase_if(reading.findings, [](const FormFinding& finding) { return !finding.error; });
  }
  reading.findings.resize(kMostFormFindings);
}

}  // namespace

std::string Sentence(const FormFinding& finding) {
  const bool names_question = finding.sentence.starts_with('"');
  const bool asks = finding.sentence.ends_with('?');
  return fmt::format("Line {}{} {}{}", finding.line, names_question ? "," : ":", finding.sentence,
                     asks ? "" : ".");
}

std::string Sentence(const FieldViolation& violation, const FormReading& reading) {
  const auto found = reading.questions.find(violation.field);
  const std::string what =
      found == reading.questions.end() ? violation.field
      : found->second.line == 0
          ? fmt::format("\"{}\"", found->second.label)
          : fmt::format("Line {}, \"{}\",", found->second.line, found->second.label);
  const bool goes_on = !violation.description.empty() && violation.description[0] >= 'a' &&
                       violation.description[0] <= 'z';
  return fmt::format("{}{}{}{}", what, goes_on ? " " : ": ", violation.description,
                     violation.description.ends_with('.') ? "" : ".");
}

absl::StatusOr<FormReading> ReadForm(std::string_view text) {
  RETURN_IF_ERROR(CheckLimits(text));
  FormReading reading;
  const std::vector<FormLine> lines = ReadLines(text, reading.findings);
  AnswerSheet sheet(GatherAnswers(lines, reading.findings), reading);
  ReadHeading(sheet, reading);
  ReadHow(sheet, reading.report);
  for (const YarnColour colour : estimate::kYarnColoursAsListed) {
    ReadYarn(sheet, colour, reading.report);
  }
  ReadGauges(sheet, Question::kGaugeBefore, "gauge_before", reading.report.gauge_before);
  ReadGauges(sheet, Question::kGaugeAfter, "gauge_after", reading.report.gauge_after);
  ReadSizeAndTime(sheet, reading.report);
  const int first_row_number = reading.heading.first_row_number;
  ReadWorkedRow(sheet, {Question::kLastRow}, -1, "last_row", first_row_number,
                &reading.report.last_row);
  sheet.Take({Question::kFinished}, "finished", ReadYesNo, &reading.report.finished);
  ReadErrata(sheet, first_row_number, reading.report);
  ReadRemarks(sheet, reading.report);
  SortFindings(reading);
  return reading;
}

}  // namespace rowproof::testcalls
