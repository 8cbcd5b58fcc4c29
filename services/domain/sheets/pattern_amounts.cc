#include "services/domain/sheets/pattern_amounts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "fmt/format.h"
#include "services/domain/sheets/words.h"
#include "services/quantities/printing.h"
#include "services/quantities/units.h"

namespace rowproof::sheets {
namespace {

using reconcile::QuantityResult;
using reconcile::SizeAmount;

// With fewer reports the note says how much the prior counts.
constexpr int kFewestThatSpeak = 3;

const QuantityResult* Reconciled(const SheetVersion& version, estimate::YarnColour colour) {
  if (!version.reconciliation.has_value()) return nullptr;
  for (const QuantityResult& quantity : version.reconciliation->result.quantities) {
    if (quantity.quantity == reconcile::QuantityOf(colour) && !quantity.amounts.empty()) {
      return &quantity;
    }
  }
  return nullptr;
}

// The reconciliation's own amount if it was made for this very version.
const SizeAmount* Stored(const SheetVersion& version, const QuantityResult& quantity,
                         const std::string& size) {
  if (version.reconciliation->version_number != version.number) return nullptr;
  const auto found = std::find_if(quantity.amounts.begin(), quantity.amounts.end(),
                                  [&](const SizeAmount& a) { return a.size == size; });
  return found == quantity.amounts.end() ? nullptr : &*found;
}

struct Printed {
  int64_t metres = 0;
  int64_t yards = 0;
};

// What the reports make of the prediction multiplies this version's own.
Printed PrintedOf(const SheetVersion& version, const std::string& size,
                  const estimate::ColourEstimate& colour) {
  const QuantityResult* quantity = Reconciled(version, colour.colour);
  if (quantity == nullptr) return {colour.published_length_m, colour.published_length_yd};
  const SizeAmount* stored = Stored(version, *quantity, size);
  const reconcile::PrintedLength length =
      stored != nullptr
          ? stored->amounts.suffices
          : reconcile::RoundUp(colour.length_mm / 1000 * quantity->amounts.front().amounts.factor);
  return {length.rounded_m, length.rounded_yd};
}

// Whole grams, up.
std::string Grams(double mass_g) {
  const double grams = std::ceil(mass_g);
  return fmt::format("{} g ({:.1f} oz)", Grouped(static_cast<int64_t>(grams)),
                     grams / quantities::kGramsPerOunce);
}

YarnAmount Row(const std::string& size, const estimate::Yarn& yarn, estimate::YarnColour colour,
               const Printed& printed) {
  YarnAmount row{size,
                 NameOfColour(colour, yarn),
                 Grouped(printed.metres) + " m",
                 Grouped(printed.yards) + " yd",
                 "",
                 ""};
  const auto metres = static_cast<double>(printed.metres);
  if (yarn.ball_length_m.has_value() && yarn.ball_mass_g.has_value()) {
    row.grams = Grams(metres * *yarn.ball_mass_g / *yarn.ball_length_m);
    row.balls = Grouped(static_cast<int64_t>(std::ceil(metres / *yarn.ball_length_m)));
  } else if (yarn.tex.has_value()) {
    row.grams = Grams(metres * *yarn.tex / 1000);
  }
  return row;
}

std::string BothMetres(double metres) {
  return fmt::format("{:.0f} m ({:.0f} yd)", metres, metres / quantities::kMetresPerYard);
}

void AddLooseNotes(const QuantityResult& quantity, PatternSheetText& sheet) {
  for (const SizeAmount& amount : quantity.amounts) {
    const reconcile::Amounts& a = amount.amounts;
    std::string note = fmt::format(
        "Size {}: for each stitch in 10 cm that you work more loosely, allow {} {} of {}.",
        amount.size, BothMetres(std::abs(a.more_per_looser_stitch_m)),
        a.more_per_looser_stitch_m < 0 ? "less" : "more", reconcile::Name(quantity.quantity));
    if (a.loose.has_value()) {
      note += fmt::format(
          " If you work loosely ({} sts in 10 cm, like the loosest tenth of the testers), buy "
          "{} m ({} yd).",
          quantities::Number(*a.loose_gauge, 3), Grouped(a.loose->rounded_m),
          Grouped(a.loose->rounded_yd));
    }
    sheet.amount_notes.push_back(note);
  }
}

std::string ForWhom(const estimate::Materials& materials, bool reconciled) {
  return fmt::format(
      "At the gauge before blocking, these amounts are enough for {:.3g} of 100 makers{}. They {} "
      "a swatch.",
      100 * materials.assurance, reconciled ? ", judged by what testers used" : " (estimated)",
      materials.swatch.has_value() ? "include" : "do not include");
}

}  // namespace

void AddAmounts(const SheetVersion& version, PatternSheetText& sheet) {
  const estimate::Materials& materials = version.content.materials;
  bool measured = false;
  std::set<std::string> notes;
  std::set<estimate::YarnColour> colours;
  for (const estimate::SizeEstimate& size : version.estimates) {
    for (const estimate::ColourEstimate& colour : size.colours) {
      sheet.amounts.push_back(Row(size.size, estimate::YarnOf(materials, colour.colour),
                                  colour.colour, PrintedOf(version, size.size, colour)));
      colours.insert(colour.colour);
    }
  }
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    if (!colours.contains(colour)) continue;
    const QuantityResult* quantity = Reconciled(version, colour);
    if (quantity == nullptr) continue;
    measured = measured || quantity->used > 0;
    if (quantity->used < kFewestThatSpeak && !quantity->note.empty()) {
      notes.insert(fmt::format("{}: {}", reconcile::Name(quantity->quantity), quantity->note));
    }
  }
  sheet.amount_notes.push_back(ForWhom(materials, measured));
  sheet.amount_notes.insert(sheet.amount_notes.end(), notes.begin(), notes.end());
  const bool same_version = version.reconciliation.has_value() &&
                            version.reconciliation->version_number == version.number;
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    if (!colours.contains(colour)) continue;
    const QuantityResult* quantity = Reconciled(version, colour);
    if (quantity != nullptr && same_version) AddLooseNotes(*quantity, sheet);
  }
}

}  // namespace rowproof::sheets
