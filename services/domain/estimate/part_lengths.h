// The parts of each yarn as exact linear forms in stitch pitch, row pitch and yarn diameter, so
// that a length, its derivatives and its uncertainty all come from one description. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_PART_LENGTHS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_PART_LENGTHS_H_

#include <array>

#include "services/domain/chart/technique.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/stitch_counts.h"

namespace rowproof::estimate {

// w * (stitch pitch) + h * (row pitch) + d * (yarn diameter) + fixed_mm.
struct LinearLength {
  double w = 0;
  double h = 0;
  double d = 0;
  double fixed_mm = 0;

  void Add(const StitchPath& path, double times) {
    w += times * path.across;
    h += times * path.up;
    d += times * path.diameters;
  }
  void Scale(double times) {
    w *= times;
    h *= times;
    d *= times;
    fixed_mm *= times;
  }
  LinearLength& operator+=(const LinearLength& other) {
    w += other.w;
    h += other.h;
    d += other.d;
    fixed_mm += other.fixed_mm;
    return *this;
  }
  double Mm(double w_mm, double h_mm, double d_mm) const {
    return w * w_mm + h * h_mm + d * d_mm + fixed_mm;
  }
  bool operator==(const LinearLength&) const = default;
};

// Indexed by YarnColour and PartKind; kJoins is empty, since it depends on the length itself.
using PartLengths = std::array<std::array<LinearLength, kPartKinds>, kYarnColours>;

// A piece: `worked` are the rows it has, `whole` the counts of the finished size.
struct Piece {
  const chart::Design& design;
  const Materials& materials;
  ChartCounts worked;
  ChartCounts whole;
  const chart::TechniqueFacts& technique() const { return chart::FactsOf(design.technique); }
  bool finished() const { return worked.rows == whole.rows; }
  // Both yarns of inset always wait at an edge, whatever is declared.
  chart::Ends ends() const {
    return technique().skips ? chart::Ends::kWaiting : materials.ends.value_or(design.ends);
  }
  bool tube() const { return design.form == chart::Form::kTube; }
  // What the chart declares, since its drops may rest on it; else what the materials say.
  chart::Colour foundation_colour() const {
    if (design.foundation_colour.has_value()) return *design.foundation_colour;
    return materials.foundation.colour.value_or(chart::RowColour(design, 1));
  }
  bool worked_foundation() const {
    return design.foundation_colour.has_value() ||
           materials.foundation.kind == FoundationKind::kWorked;
  }
  // Border rounds there are: none on a piece that is not finished.
  int border_rounds() const { return finished() ? materials.border.rounds : 0; }
  int border_layers() const { return materials.border.enclosing_double ? 2 : 1; }
};

// A worked foundation is row 0, one more worked row of its colour.
std::array<ColourCounts, chart::kMostColours> RowsWithFoundation(const Piece& piece);

// True if the piece has any stitch of a row colour, its foundation's included.
bool Uses(const Piece& piece, chart::Colour colour);

// Colours of a design's rows are among these.
inline constexpr std::array<chart::Colour, chart::kMostColours> kRowColours = {
    chart::Colour::kA, chart::Colour::kB, chart::Colour::kC, chart::Colour::kD,
    chart::Colour::kE, chart::Colour::kF, chart::Colour::kG, chart::Colour::kH};

// Stitches of the border: round i (from 1) has 2S + 2R + 8i, tube 2S; an enclosing double border
// has every round twice and then one closing round.
int64_t BorderStitches(const Piece& piece);

// The stitches of the chart in one colour: plain, drops, and chains over skipped stitches.
LinearLength StitchLength(const Piece& piece, const ColourCounts& counts);

PartLengths PartsOf(const Piece& piece);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_PART_LENGTHS_H_
