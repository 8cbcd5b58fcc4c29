// import, export, draw.
#include <vector>

#include "fmt/format.h"
#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
#include "services/client/connection.h"
#include "services/client/files.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/choices.h"
#include "services/client/tables/conversion.h"

namespace rowproof::client {
namespace {

struct ImportCommand : ChartCommand {
  explicit ImportCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    if (!output->out.empty()) FileFormatOf("--out", output->out, false);
    v1::ImportChartRequest request;
    *request.mutable_file() = FileOf(options.chart, content);
    const auto answer =
        Connection::Local().Ask<v1::ImportedChart>("ChartService.ImportChart", request);
    if (!output->out.empty()) {
      v1::Design read;
      *read.mutable_chart() = answer.chart();
      WriteChartFile(read, output->out);
    }
    ShowOnScreen(answer, output->style.details || answer.swap_colours_offered() ? TextOf(answer)
                                                                                : std::string());
  }
};

constexpr char kShadeHelp[] =
    "What a yarn looks like, such as A=#f2e6cf, from A on; may be repeated";

struct ExportCommand : ChartCommand {
  int scale = 0;
  bool plain = false;

  explicit ExportCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    v1::ExportChartRequest request;
    request.set_format(FileFormatOf("--out", output->out, plain));
    *request.mutable_design() = design();
    request.set_cell_scale(scale);
    *request.mutable_colours() = ShadesOf("--shade", options.shades);
    const auto answer =
        Connection::Local().Ask<v1::ExportChartResponse>("ChartService.ExportChart", request);
    WriteFile(output->out, answer.content());
    if (output->json) WriteFile("", JsonOf(answer));
    ShowReading();
  }
};

void AddExport(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<ExportCommand>(shared);
  OptionUse use;
  use.chart.working = false;
  use.chart.bands = false;
  auto* added = AddChartCommand(
      app, "export", "Write a chart's cells as PNG, PBM, PGM, PPM, CSV or TSV, by --out's ending",
      "rowproof export mat.png --out mat.csv", use, command, [c = command.get()] { c->Run(); });
  added->add_option("--scale", command->scale, "Pixels along a cell's side (default: 1)")
      ->group(kOutputGroup);
  added->add_flag("--plain", command->plain, "PBM, PGM and PPM as plain text")->group(kOutputGroup);
  AddTexts(*added, "--shade", command->options.shades, kShadeHelp)->group(kOutputGroup);
}

v1::DrawingFormat DrawingFormatOf(const std::string& path) {
  const std::string ending = EndingOf(path);
  if (ending == "png") return v1::DRAWING_FORMAT_PNG;
  if (ending == "svg") return v1::DRAWING_FORMAT_SVG;
  if (ending == "pdf") return v1::DRAWING_FORMAT_PDF;
  throw MustBe("--out", "a name that ends in .png, .svg or .pdf", path);
}

// Stitches and rows in 100 mm, of all counts together.
v1::Gauge GaugeOf(const v1::Materials& materials) {
  if (materials.gauge_readings_size() == 0) return materials.gauge();
  constexpr double kUsualSpanMm = 100;
  double stitches = 0;
  double rows = 0;
  double across = 0;
  double up = 0;
  for (const auto& reading : materials.gauge_readings()) {
    stitches += reading.stitches();
    rows += reading.rows();
    across += reading.has_stitch_span_mm() ? reading.stitch_span_mm() : kUsualSpanMm;
    up += reading.has_row_span_mm() ? reading.row_span_mm() : kUsualSpanMm;
  }
  v1::Gauge gauge;
  gauge.set_stitches_per_decimetre(stitches * 100 / across);
  gauge.set_rows_per_decimetre(rows * 100 / up);
  return gauge;
}

struct DrawCommand : ChartCommand {
  std::string show;
  std::optional<int> cell_pixels;
  std::optional<double> cell_mm;
  std::string paper;
  std::string title;

  explicit DrawCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  v1::DrawChartRequest Request() const {
    v1::DrawChartRequest request;
    request.set_format(DrawingFormatOf(output->out));
    request.set_kind(EnumOf<v1::DrawingKind>(Drawings(), show));
    if (cell_pixels.has_value()) request.set_cell_size_px(*cell_pixels);
    if (cell_mm.has_value()) request.set_cell_size_mm(*cell_mm);
    request.set_paper(EnumOf<v1::Paper>(Papers(), paper));
    request.set_title(title);
    request.set_hand(EnumOf<v1::Hand>(Hands(), options.chart.hand));
    request.set_size(options.materials.size_name);
    *request.mutable_colours() = ShadesOf("--shade", options.shades);
    for (const std::string& name : options.chart.colour_names) request.add_colour_names(name);
    if (const auto made = materials_if_given(); made.has_value()) {
      *request.mutable_gauge() = GaugeOf(*made);
    }
    if (options.wrong_side_share.has_value()) {
      request.set_wrong_side_share(*options.wrong_side_share);
    }
    return request;
  }

  void Run() const {
    v1::DrawChartRequest request = Request();
    *request.mutable_design() = design();
    const auto answer =
        Connection::Local().Ask<v1::DrawChartResponse>("ChartService.DrawChart", request);
    WriteFile(output->out, answer.content());
    if (output->json) WriteFile("", JsonOf(answer));
    ShowReading();
  }
};

void AddDraw(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<DrawCommand>(shared);
  OptionUse use;
  use.chart.hand = true;
  use.chart.colour_names = true;
  use.materials = {true, true, false, true};
  auto* added = AddChartCommand(
      app, "draw", "Draw a chart or a face of the fabric as PNG, SVG or PDF, by --out's ending",
      "rowproof draw mat.png --show face-1 --gauge 14x16/4in --out face.pdf", use, command,
      [c = command.get()] { c->Run(); });
  const auto shown = [](CLI::Option* option) { option->group(kOutputGroup); };
  shown(AddWord(
      *added, "--show", command->show, Drawings(),
      "Either kind of chart, or a face of the finished fabric (default: the chart as given)"));
  shown(added->add_option("--cell-pixels", command->cell_pixels,
                          "PNG: pixels along a cell, 4 to 64"));
  shown(added->add_option("--cell-mm", command->cell_mm,
                          "PDF and SVG: mm along a cell, 1.5 to 25; a PDF is split over pages"));
  shown(AddWord(*added, "--paper", command->paper, Papers(), "Paper of a PDF (default: a4)"));
  shown(added->add_option("--title", command->title, "Printed above the drawing"));
  shown(added->add_option(
      "--wrong-side-share", command->options.wrong_side_share,
      "Two-face: how much of a WS row's height is seen, 0.1 to 1 (default: 0.4)"));
  shown(AddTexts(*added, "--shade", command->options.shades, kShadeHelp));
}

}  // namespace

void AddChartFileCommands(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<ImportCommand>(shared);
  OptionUse use;
  use.chart.working = false;
  use.chart.bands = false;
  AddChartCommand(app, "import",
                  "Show how a chart file is read; --out writes the chart that was read",
                  "rowproof import scan.png --grid 12/1 --details", use, command,
                  [c = command.get()] { c->Run(); });
  AddExport(app, shared);
  AddDraw(app, shared);
}

}  // namespace rowproof::client
