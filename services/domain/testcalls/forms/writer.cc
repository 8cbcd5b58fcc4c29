#include "services/domain/testcalls/forms/writer.h"

#include <algorithm>
#include <optional>

#include "fmt/format.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/lines.h"
#include "services/domain/testcalls/forms/questions.h"
#include "services/domain/testcalls/forms/wrapping.h"

namespace rowproof::testcalls {
namespace {

using estimate::YarnColour;

// The shortest digits that read back as the same number.
std::string Number(double value, const char* unit) { return fmt::format("{} {}", value, unit); }

std::string Number(const std::optional<double>& value, const char* unit) {
  return value.has_value() ? Number(*value, unit) : std::string();
}

class Writer {
 public:
  explicit Writer(int first_row_number) : first_row_number_(first_row_number) {}

  void Help(const std::string& text) { form_ += WrappedHelp(text); }
  void Blank() { form_ += '\n'; }
  void Answer(const Label& label, const std::string& value) {
    form_ += WrappedAnswer(LabelText(label), NormalisedText(value, false));
  }
  void YesNo(const Label& label, bool yes) { Answer(label, yes ? "yes" : "no"); }
  void Row(const Label& label, int row) {
    Answer(label, row == 0 ? "none" : std::to_string(row + first_row_number_ - 1));
  }
  std::string Take() { return std::move(form_); }

 private:
  int first_row_number_;
  std::string form_;
};

void WriteHead(Writer& form, const FormHeading& heading, const FormNotes& notes) {
  form.Help("Report of a crochet test.");
  if (!notes.pattern_title.empty()) form.Help("Pattern: " + notes.pattern_title);
  if (!notes.call_title.empty()) form.Help("Test call: " + notes.call_title);
  if (notes.rows > 0) {
    form.Help(
        fmt::format("Size {}: {} rows of {} stitches.", heading.size, notes.rows, notes.stitches));
  }
  if (!notes.deadline.empty()) form.Help("Last day: " + notes.deadline);
  form.Blank();
  form.Help(
      "Write your answers after the colons and send the form back by mail. Lines that begin with # "
      "are help and are ignored. Leave empty what you do not know. Give units: mm, cm, m, in, yd, "
      "g, oz. When there is more to report, send the whole form again.");
  form.Blank();
  form.Help(
      "Take breaks and stretch: long repetitive work strains hands and arms. You may stop at "
      "any time without giving a reason.");
  form.Help(
      "Do not put your name, address or photographs here: they are personal data, kept separately "
      "from reports, and you may ask to have them sent to you or erased.");
  for (const std::string& caution : notes.cautions) form.Help(caution);
  if (!notes.terms.empty()) form.Blank();
  for (const std::string& term : notes.terms) form.Help(term);
  form.Blank();
  form.Help("Leave these four lines as they are.");
  form.Answer({Question::kSeat}, heading.seat);
  form.Answer({Question::kVersion}, std::to_string(heading.version));
  form.Answer({Question::kSize}, heading.size);
  form.Answer({Question::kFirstRowNumber}, std::to_string(heading.first_row_number));
}

void WriteHow(Writer& form, const Report* report) {
  form.Blank();
  form.Help("What you worked from: chart, text or both.");
  form.Answer({Question::kWorkedFrom}, report == nullptr ? "" : Name(report->worked_from));
  form.Help("Your hand: right or left. The text's terms: US or UK.");
  form.Answer({Question::kHand}, report == nullptr ? "" : Name(report->hand));
  form.Answer({Question::kTerms}, report == nullptr ? "" : Name(report->terms));
  form.Help("The hook in mm, not its number: 4.5 mm");
  form.Answer({Question::kHook}, report == nullptr ? "" : Number(report->hook_mm, "mm"));
  form.Help("How you handled the ends: cut, carried, waiting, or as in the pattern.");
  std::string ends;
  if (report != nullptr) {
    ends = report->ends.has_value() ? chart::Name(*report->ends) : "as in the pattern";
  }
  form.Answer({Question::kEnds}, ends);
}

// The band, or the linear density of a yarn that has none.
std::string Ball(const estimate::Yarn& yarn) {
  if (yarn.ball_length_m.has_value() && yarn.ball_mass_g.has_value()) {
    return fmt::format("{} m in {} g", *yarn.ball_length_m, *yarn.ball_mass_g);
  }
  return Number(yarn.tex, "tex");
}

void WriteYarnItself(Writer& form, YarnColour colour, const estimate::Yarn* yarn) {
  form.Answer({Question::kYarnName, colour}, yarn == nullptr ? "" : yarn->name);
  form.Answer({Question::kYarnFibre, colour}, yarn == nullptr ? "" : yarn->fibre);
  form.Answer({Question::kYarnWeightClass, colour},
              yarn != nullptr && yarn->weight_class.has_value()
                  ? std::to_string(*yarn->weight_class)
                  : std::string());
  form.Answer({Question::kYarnWraps, colour}, yarn != nullptr && yarn->wraps_per_inch.has_value()
                                                  ? fmt::format("{}", *yarn->wraps_per_inch)
                                                  : std::string());
  form.Answer({Question::kYarnBall, colour}, yarn == nullptr ? std::string() : Ball(*yarn));
}

void WriteYarn(Writer& form, YarnColour colour, bool asks_border, const YarnUse* use) {
  const YarnUse empty;
  const YarnUse& shown = use == nullptr ? empty : *use;
  const bool has_amount = shown.length_m.has_value() || shown.mass_before_g.has_value();
  WriteYarnItself(form, colour, shown.yarn.has_value() ? &*shown.yarn : nullptr);
  form.Answer({Question::kYarnLength, colour}, Number(shown.length_m, "m"));
  form.Answer({Question::kYarnLengthStep, colour}, Number(shown.length_step_m, "m"));
  form.Answer({Question::kYarnWeightBefore, colour}, Number(shown.mass_before_g, "g"));
  form.Answer({Question::kYarnWeightAfter, colour}, Number(shown.mass_after_g, "g"));
  form.Answer({Question::kYarnScaleStep, colour}, Number(shown.scale_step_g, "g"));
  const auto part = [&](Question question, bool with) {
    form.Answer({question, colour}, with ? "yes" : has_amount ? "no" : "");
  };
  part(Question::kYarnWithSwatch, shown.with_swatch);
  if (asks_border || shown.with_border) part(Question::kYarnWithBorder, shown.with_border);
}

// "Yarn A is Oat, yarn B is Slate.": of the yarns that the pattern takes.
std::string NamesOfYarns(const FormNotes& notes) {
  std::string text;
  for (const YarnColour colour : notes.yarns) {
    const auto index = static_cast<size_t>(colour);
    if (colour == YarnColour::kBorder || index >= notes.colour_names.size()) continue;
    text += fmt::format("{} {} is {}", text.empty() ? "Yarn" : ", yarn", estimate::Name(colour),
                        notes.colour_names[index]);
  }
  return text.empty() ? text : text + ".";
}

void WriteYarns(Writer& form, const FormNotes& notes, const Report* report) {
  const auto find = [&](YarnColour colour) -> const YarnUse* {
    if (report == nullptr) return nullptr;
    for (const YarnUse& use : report->yarn) {
      if (use.colour == colour) return &use;
    }
    return nullptr;
  };
  form.Blank();
  form.Help(
      "Yarn. If you used the pattern's yarn, leave name to ball empty; otherwise give the weight "
      "class (0 to 7) or the wraps per inch, and the ball band: 125 m in 50 g");
  form.Help(
      "How much you used: the length, or the weight of all balls before and after; and whether "
      "that includes the swatch (and the border), yes or no.");
  form.Help("Read to: the smallest steps of your tape and scale.");
  if (const std::string names = NamesOfYarns(notes); !names.empty()) form.Help(names);
  bool first = true;
  for (const YarnColour colour : estimate::kYarnColoursAsListed) {
    const YarnUse* use = find(colour);
    const bool asked =
        std::find(notes.yarns.begin(), notes.yarns.end(), colour) != notes.yarns.end();
    if (!asked && use == nullptr) continue;
    if (!first) form.Blank();
    first = false;
    WriteYarn(form, colour, colour == notes.border && colour != YarnColour::kBorder, use);
  }
}

void WriteReadings(Writer& form, Question question,
                   const std::vector<estimate::GaugeReading>* readings) {
  if (readings == nullptr || readings->empty()) {
    form.Answer({question}, "");
    return;
  }
  for (const estimate::GaugeReading& reading : *readings) {
    form.Answer({question}, fmt::format("{} stitches in {} mm, {} rows in {} mm, to {} mm",
                                        reading.stitches, reading.stitch_span_mm, reading.rows,
                                        reading.row_span_mm, reading.scale_step_mm));
  }
}

void WriteMeasures(Writer& form, const Report* report) {
  form.Blank();
  form.Help(
      "Gauge in the pattern's own stitches; count rows one by one in a plain column (a ridge is "
      "two rows): 21 stitches in 10 cm, 24 rows in 10 cm, to 1 mm");
  form.Help("Repeat the line for each place where you counted.");
  WriteReadings(form, Question::kGaugeBefore, report == nullptr ? nullptr : &report->gauge_before);
  WriteReadings(form, Question::kGaugeAfter, report == nullptr ? nullptr : &report->gauge_after);
  form.Answer({Question::kHowBlocked}, report == nullptr ? "" : report->how_blocked);
  form.Blank();
  form.Help("Finished size with border and fringe: 120 cm, or 47 1/4 in");
  const Report empty;
  const Report& shown = report == nullptr ? empty : *report;
  form.Answer({Question::kWidthBefore}, Number(shown.width_before_mm, "mm"));
  form.Answer({Question::kHeightBefore}, Number(shown.height_before_mm, "mm"));
  form.Answer({Question::kWidthAfter}, Number(shown.width_after_mm, "mm"));
  form.Answer({Question::kHeightAfter}, Number(shown.height_after_mm, "mm"));
  form.Answer({Question::kTapeStep}, Number(shown.tape_step_mm, "mm"));
  form.Blank();
  form.Help("Working time: 31:30, or 31 h 30 min, or 1890 minutes");
  form.Answer({Question::kTime}, Number(shown.minutes, "minutes"));
  form.Help(
      "The last row you worked, as the pattern numbers it (in size lists, your size's "
      "number), or none. Finished: yes or no.");
  if (report == nullptr) {
    form.Answer({Question::kLastRow}, "");
    form.Answer({Question::kFinished}, "");
  } else {
    form.Row({Question::kLastRow}, report->last_row);
    form.YesNo({Question::kFinished}, report->finished);
  }
}

void WriteErratum(Writer& form, size_t number, const faults::Erratum* erratum) {
  form.Blank();
  form.Answer({Question::kErratum}, std::to_string(number));
  if (erratum == nullptr) {
    for (const Question question :
         {Question::kErratumRow, Question::kErratumStitches, Question::kErratumCountedFrom,
          Question::kErratumSeenIn, Question::kErratumKind, Question::kErratumWas,
          Question::kErratumShouldBe, Question::kErratumNote}) {
      form.Answer({question}, "");
    }
    return;
  }
  form.Row({Question::kErratumRow}, erratum->row);
  std::string stitches = "all";
  if (erratum->first_stitch > 0) {
    stitches = erratum->first_stitch == erratum->last_stitch
                   ? std::to_string(erratum->first_stitch)
                   : fmt::format("{} to {}", erratum->first_stitch, erratum->last_stitch);
  }
  form.Answer({Question::kErratumStitches}, stitches);
  form.Answer({Question::kErratumCountedFrom}, Name(erratum->counted_from));
  form.Answer({Question::kErratumSeenIn}, Name(erratum->seen_in));
  form.Answer({Question::kErratumKind}, Name(erratum->kind));
  form.Answer({Question::kErratumWas}, erratum->was);
  form.Answer({Question::kErratumShouldBe}, erratum->should_be);
  form.Answer({Question::kErratumNote}, erratum->remark);
}

void WriteErrata(Writer& form, const Report* report) {
  form.Blank();
  form.Help("Errata: copy the lines from \"erratum:\" on for each one.");
  form.Help(
      "Stitches: 5, or 5 to 8, or all. Counted from: stitch 1 (as the chart numbers them), "
      "or row start (from where you began the row).");
  form.Help("Seen in: chart, text, both or elsewhere.");
  form.Help(
      "Kind: stitch, count, colour, side (RS and WS), repeat, materials, measurement or "
      "other.");
  size_t number = 0;
  if (report != nullptr) {
    for (const faults::Erratum& erratum : report->errata) WriteErratum(form, ++number, &erratum);
  }
  if (number == 0) WriteErratum(form, 1, nullptr);
}

// A line of remarks each.
void WriteRemarks(Writer& form, const Report* report) {
  form.Blank();
  std::string remarks = report == nullptr ? "" : NormalisedText(report->remarks, true);
  size_t end = 0;
  do {
    end = remarks.find('\n');
    form.Answer({Question::kRemarks}, remarks.substr(0, end));
    if (end != std::string::npos) remarks.erase(0, end + 1);
  } while (end != std::string::npos);
  form.Answer({Question::kEnd}, "");
}

}  // namespace

std::string WriteForm(const FormHeading& heading, const FormNotes& notes, const Report* prefilled) {
  Writer form(heading.first_row_number);
  WriteHead(form, heading, notes);
  WriteHow(form, prefilled);
  WriteYarns(form, notes, prefilled);
  WriteMeasures(form, prefilled);
  WriteErrata(form, prefilled);
  WriteRemarks(form, prefilled);
  return form.Take();
}

}  // namespace rowproof::testcalls
