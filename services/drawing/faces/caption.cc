#include "services/drawing/faces/caption.h"

#include <algorithm>
#include <vector>

#include "fmt/format.h"
#include "services/domain/chart/technique.h"

namespace rowproof::drawing {
namespace {

using chart::Facing;

// What the picture looks like on this face.
std::string Seen(const FaceModel& model) {
  const chart::TechniqueFacts& facts = chart::FactsOf(model.technique);
  const bool two = model.face == 2;
  if (!facts.picture_on_both_faces) {
    if (!two) return "The drops lie in front, so this face shows the picture.";
    return facts.skips ? "This face shows plain stripes of two rows, with chains behind the "
                         "skipped stitches."
                       : "This face shows plain stripes of one row.";
  }
  std::string seen =
      two ? "Spikes cover the row below on both faces, so the picture shows here too, "
            "mirrored."
          : "Spikes cover the row below on both faces, so the picture also shows on "
            "face 2, mirrored.";
  if (model.tube || model.facing == Facing::kOneFace) return seen;
  if (model.facing == Facing::kPaired)
    return seen + " Both faces look alike; neither colour leads.";
  return seen + (two ? " The colours of the WS rows lead." : " The colours of the RS rows lead.");
}

class Caption {
 public:
  Caption(const FaceModel& model, const FaceLook& look, const DrawingRequest& request,
          Legend& legend)
      : model_(model), look_(look), request_(request), legend_(legend) {}

  void AddSeen() {
    legend_.AddLine(model_.face == 1
                        ? "Face 1 is shown: stitch 1 is at the right, row 1 at the bottom."
                        : "Face 2 is shown: stitch 1 is at the left, row 1 at the bottom.");
    legend_.AddLine(Seen(model_));
    if (request_.hand == chart::Hand::kLeft) {
      legend_.AddLine("A left-handed maker makes the same fabric from the chart.");
    }
    if (model_.unlike_picture > 0) {
      legend_.AddLine(fmt::format(
          "{} of the picture cannot be worked as drawn; the fabric is shown as it comes out.",
          model_.unlike_picture == 1 ? "1 cell" : fmt::format("{} cells", model_.unlike_picture)));
    }
  }

  void AddColours() {
    std::vector<bool> used(chart::kMostColours, false);
    for (const uint8_t colour : model_.colours) used[colour] = true;
    for (size_t colour = 0; colour < used.size(); ++colour) {
      if (!used[colour]) continue;
      legend_.Add(NameOf(colour, request_),
                  [rgb = look_.colours[colour], side = legend_.SwatchSide()](cairo_t* cr, double x,
                                                                             double y) {
                    cairo_rectangle(cr, x, y, side, side);
                    SetColour(cr, rgb);
                    cairo_fill_preserve(cr);
                    SetColour(cr, kInk);
                    cairo_set_line_width(cr, 0.06 * side);
                    cairo_stroke(cr);
                  });
    }
  }

  void AddStitches() {
    const char* towards = model_.face == 1 ? "RS" : "WS";
    const char* away = model_.face == 1 ? "WS" : "RS";
    if (!ShowsStitches(model_, look_)) {
      if (Has(StitchLook::kBack) && Has(StitchLook::kFront)) {
        legend_.AddLine(fmt::format(
            "Stitches are too small to draw; {} rows, seen from behind, are a little darker.",
            away));
      }
      return;
    }
    AddStitch(StitchLook::kFront,
              fmt::format("stitch of a {} row (worked with this face towards you)", towards));
    AddStitch(StitchLook::kBack,
              fmt::format("stitch of a {} row (worked with the other face towards you)", away));
    AddDrop();
    AddStitch(StitchLook::kChain, "chains over skipped stitches: n + 1 chains over n stitches");
    if (std::any_of(model_.strips.begin(), model_.strips.end(),
                    [](const FaceStrip& strip) { return strip.free_loops; })) {
      legend_.AddLine("Pale bars: front loops left free by the row above.");
    }
  }

  void AddAssumptions() {
    const DrawnGauge gauge = request_.gauge.value_or(DrawnGauge{});
    legend_.AddLine(fmt::format("{} {:.4g} stitches and {:.4g} rows in 100 mm.",
                                request_.gauge.has_value()
                                    ? "Proportions of the gauge:"
                                    : "No gauge was given; assumed proportions:",
                                gauge.stitches_per_decimetre, gauge.rows_per_decimetre));
    if (model_.squeezed) {
      legend_.AddLine(fmt::format(
          "{} {:.3g} % of {} row's height shows on this face; the rest lies under the next row.",
          request_.wrong_side_share.has_value() ? "As set:" : "Assumed:",
          100 * model_.wrong_side_share, model_.face == 1 ? "a WS" : "a RS"));
    }
    if (!model_.size_shown.empty()) {
      legend_.AddLine(fmt::format("Size {}: {} rows of {} stitches.", model_.size_shown,
                                  model_.rows() - (model_.foundation ? 1 : 0), model_.stitches));
    } else if (model_.has_bands) {
      legend_.AddLine("Each repeat is shown once.");
    }
    if (model_.foundation) {
      legend_.AddLine(
          fmt::format("Row {}, at the bottom, is the worked foundation (assumed to be a {} row).",
                      model_.strips.front().number, chart::Name(model_.strips.front().side)));
    }
    legend_.AddLine(fmt::format("Not shown: {}tails, fringe, border, and how the fabric bends.",
                                model_.foundation ? "" : "the foundation chain, "));
  }

 private:
  bool Has(StitchLook look) const {
    return std::find(model_.looks.begin(), model_.looks.end(), look) != model_.looks.end();
  }

  Rgb Sample() const { return look_.colours[model_.colours.front()]; }

  void AddStitch(StitchLook stitch, const std::string& text) {
    if (!Has(stitch)) return;
    legend_.Add(text, [posts = model_.posts, stitch, colour = Sample(),
                       side = legend_.SwatchSide()](cairo_t* cr, double x, double y) {
      PaintStitch(cr, posts, colour, stitch, x, y, side);
    });
  }

  void AddDrop() {
    if (!Has(StitchLook::kLegs)) return;
    const bool front = Has(StitchLook::kDropFront);
    legend_.Add(
        "drop: its top in its own row, its lower part over the row below (shown side by side)",
        [posts = model_.posts, front, colour = Sample(), side = legend_.SwatchSide(),
         pitch = legend_.SwatchPitch()](cairo_t* cr, double x, double y) {
          PaintStitch(cr, posts, colour, front ? StitchLook::kDropFront : StitchLook::kDropBack, x,
                      y, side);
          PaintStitch(cr, posts, colour, StitchLook::kLegs, x + pitch, y, side);
        });
  }

  const FaceModel& model_;
  const FaceLook& look_;
  const DrawingRequest& request_;
  Legend& legend_;
};

}  // namespace

std::string FaceHeading(const FaceModel& model) {
  return model.face == 1 ? "Face 1 of the finished fabric"
                         : "Face 2 of the finished fabric, seen from behind";
}

Legend FaceCaption(const Typesetter& typesetter, const FaceModel& model, const FaceLook& look,
                   const DrawingRequest& request, double font, double width) {
  Legend legend(typesetter, font, width);
  Caption caption(model, look, request, legend);
  caption.AddSeen();
  caption.AddColours();
  caption.AddStitches();
  caption.AddAssumptions();
  return legend;
}

}  // namespace rowproof::drawing
