#include "services/domain/sheets/pattern_sentences.h"

#include <algorithm>
#include <cctype>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/sheets/words.h"
#include "services/quantities/printing.h"

namespace rowproof::sheets {
namespace {

std::string FormSentence(const chart::Design& design) {
  if (design.form == chart::Form::kTube) {
    return "worked in the round as a tube, with every round on the right side.";
  }
  if (chart::WorkedRows(design) == 2) {
    return "each row of the chart is two rows in one colour, RS then WS; turn after every row; the "
           "back shows stripes.";
  }
  switch (chart::FacingOf(design)) {
    case chart::Facing::kOneFace:
      return "one-face: every row is worked on the right side, without turning.";
    case chart::Facing::kTwoFace:
      return "two-face: turn after every row; one face is mostly colour A, the other mostly colour "
             "B.";
    case chart::Facing::kPaired:
      return "paired: turn after every second row; both faces look alike.";
  }
  return "";
}

std::string EndsSentence(chart::Ends ends) {
  switch (ends) {
    case chart::Ends::kCut:
      return "Cut the yarn at the end of each row.";
    case chart::Ends::kCarried:
      return "Carry the resting colour inside every row; cut nothing until the end.";
    case chart::Ends::kWaiting:
      return "Leave each yarn at the edge for its next row; cut nothing until the end.";
  }
  return "";
}

std::string GaugeLine(const estimate::Gauge& gauge, const char* when) {
  return fmt::format("{}; {}; counted in the mosaic pattern {} blocking",
                     quantities::BothGauges(gauge.stitches_per_decimetre, "sts"),
                     quantities::BothGauges(gauge.rows_per_decimetre, "rows"), when);
}

std::string BorderYarn(estimate::YarnColour colour, const std::vector<std::string>& names) {
  if (colour == estimate::YarnColour::kBorder) return "its own yarn";
  for (size_t i = 0; i < names.size(); ++i) {
    if (estimate::YarnColourOf(static_cast<chart::Colour>(i)) == colour) return names[i];
  }
  return estimate::Name(colour);
}

}  // namespace

std::string Summary(const chart::Design& design, const estimate::Materials& materials) {
  std::string technique = chart::Name(design.technique);
  technique[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(technique[0])));
  return fmt::format("{} mosaic, {} {}", technique, FormSentence(design),
                     EndsSentence(materials.ends.value_or(design.ends)));
}

std::vector<std::string> Cautions(const std::vector<estimate::SizeEstimate>& sizes) {
  std::vector<std::string> sentences;
  for (const auto& size : sizes) {
    for (const auto& caution : size.cautions) {
      if (std::find(sentences.begin(), sentences.end(), caution.sentence) == sentences.end()) {
        sentences.push_back(caution.sentence);
      }
    }
  }
  return sentences;
}

std::vector<std::string> GaugeLines(const estimate::Materials& materials) {
  std::vector<std::string> lines;
  if (materials.gauge_after_blocking.has_value()) {
    lines.push_back(GaugeLine(*materials.gauge_after_blocking, "after"));
  }
  lines.push_back(GaugeLine(materials.gauge, "before"));
  return lines;
}

std::string HookLine(const estimate::Materials& materials) {
  return materials.hook_mm.has_value()
             ? Hook(*materials.hook_mm) + ", or the size that gives the gauge"
             : "the size that gives the gauge";
}

std::vector<std::string> FinishingLines(const patterns::VersionContent& content,
                                        const std::vector<estimate::SizeEstimate>& estimates,
                                        const rows::WriterSettings& settings) {
  std::vector<std::string> lines = Lines(content.finishing);
  const estimate::Border& border = content.materials.border;
  if (border.rounds > 0) {
    lines.push_back(fmt::format(
        "Border in {}: {} {} of {}{}.", BorderYarn(border.colour, settings.colour_names),
        border.rounds, border.rounds == 1 ? "round" : "rounds",
        settings.terms == chart::Terms::kUs ? "sc" : "dc",
        border.enclosing_double ? ", each on the front and the back, then one closing round "
                                  "through both layers"
                                : ""));
  }
  std::string ends;
  for (const auto& size : estimates) {
    ends += fmt::format("{}{} in {}", ends.empty() ? "" : ", ", size.ends_to_weave_in, size.size);
  }
  lines.push_back(fmt::format("Ends to weave in: {}.", ends));
  return lines;
}

}  // namespace rowproof::sheets
