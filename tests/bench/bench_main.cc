// rowproof_bench: measures the project's figures and prints them. Ends with 1 where one of them
// cannot be measured; how long something took is never a failure.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/bench/bare_insert.h"
#include "tests/bench/chart_figures.h"
#include "tests/bench/reading_figure.h"
#include "tests/bench/service_figures.h"

namespace rowproof::bench {
namespace {

std::vector<Figure> MeasureAll(const std::string& programs, const std::string& self,
                               const std::string& only) {
  const auto wanted = [&](const char* name) { return std::string(name).starts_with(only); };
  std::vector<Figure> figures;
  if (wanted("submit-300x400") || wanted("report-16-clients")) {
    const LiveServer server(programs);
    PrepareDatabase(server.connection());
    if (wanted("submit-300x400")) figures.push_back(MeasureSubmit(server));
    if (wanted("report-16-clients")) {
      for (auto& figure : MeasureReports(server, self)) figures.push_back(std::move(figure));
    }
  }
  if (wanted("check-1000x1000")) figures.push_back(MeasureCheck());
  if (wanted("check-carried-1000x1000")) figures.push_back(MeasureCheckCarried());
  if (wanted("check-overlay-1000x1000")) figures.push_back(MeasureCheckOverlay());
  if (wanted("check-inset-1000x1000")) figures.push_back(MeasureCheckInset());
  if (wanted("repair-1000x1000")) figures.push_back(MeasureRepair());
  if (wanted("estimate-six-sizes")) {
    figures.push_back(MeasureEstimate("estimate-six-sizes", chart::Technique::kSpike, false));
  }
  if (wanted("estimate-calibrated-six-sizes")) {
    figures.push_back(
        MeasureEstimate("estimate-calibrated-six-sizes", chart::Technique::kSpike, true));
  }
  if (wanted("estimate-inset-six-sizes")) {
    figures.push_back(MeasureEstimate("estimate-inset-six-sizes", chart::Technique::kInset, false));
  }
  if (wanted("rows-motif-300x400")) figures.push_back(MeasureRowsOfAMotif());
  if (wanted("rows-random-300x400")) figures.push_back(MeasureRowsOfRandomCells());
  if (wanted("read-text")) figures.push_back(MeasureReading());
  if (wanted("read-text-tenth")) figures.push_back(MeasureReadingOfATenth());
  if (wanted("compare-300x400")) figures.push_back(MeasureComparison());
  if (figures.empty()) throw std::runtime_error("no figure has the name " + only);
  return figures;
}

int Main(int argc, char** argv) {
  const std::string self = std::filesystem::read_symlink("/proc/self/exe");
  std::string programs = std::filesystem::path(self).parent_path();
  bool json = false;
  std::string only;
  std::string connection;
  std::string address_file;
  CLI::App app("rowproof_bench: the project's figures, each beside the least it could take");
  app.add_flag("--json", json, "One JSON object a line");
  app.add_option("--only", only, "Only the figures whose names begin so");
  app.add_option("--programs", programs, "Folder of rowproofd")->capture_default_str();
  // What this program starts for itself.
  auto* bare = app.add_subcommand("serve-bare-insert", "")->group("");
  bare->add_option("connection", connection)->required();
  bare->add_option("address_file", address_file)->required();
  CLI11_PARSE(app, argc, argv);
  try {
    if (bare->parsed()) {
      ServeBareInsert(connection, address_file);
      return 0;
    }
    const std::vector<Figure> figures = MeasureAll(programs, self, only);
    json ? PrintJson(figures) : PrintTable(figures);
    return 0;
  } catch (const std::exception& failure) {
    std::fprintf(stderr, "rowproof_bench: %s\n", failure.what());
    return 1;
  }
}

}  // namespace
}  // namespace rowproof::bench

int main(int argc, char** argv) { return rowproof::bench::Main(argc, argv); }
