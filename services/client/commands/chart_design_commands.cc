// check, repair, convert, repeats.
#include <vector>

#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
#include "services/client/connection.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/choices.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/conversion.h"

namespace rowproof::client {
namespace {

constexpr char kRepairGroup[] = "Repair";
constexpr char kConversionGroup[] = "Conversion";

struct CheckCommand : ChartCommand {
  explicit CheckCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    v1::CheckChartRequest request;
    *request.mutable_design() = design_of_size();
    v1::CheckSettings& settings = *request.mutable_settings();
    if (options.longest_carried_run.has_value()) {
      settings.set_longest_carried_run(*options.longest_carried_run);
    }
    if (options.longest_skip.has_value()) settings.set_longest_skip(*options.longest_skip);
    if (options.longest_flap.has_value()) settings.set_longest_flap(*options.longest_flap);
    const auto answer =
        Connection::Local().Ask<v1::CheckResult>("ChartService.CheckChart", request);
    Show(answer, TextOf(answer, output->style));
    if (!answer.workable()) *exit_code = ExitCode::kContentHasErrors;
  }
};

void AddCheck(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<CheckCommand>(shared);
  OptionUse use;
  use.materials.foundation = use.materials.size_name = true;
  auto* added = AddChartCommand(app, "check", "Find what cannot be worked in a chart",
                                "rowproof check mat.png --technique spike --ends carried", use,
                                command, [c = command.get()] { c->Run(); });
  const auto limit = [added](const char* option, std::optional<int>& value, const char* help) {
    added->add_option(option, value, help)->group(kChartGroup);
  };
  limit("--longest-carried-run", command->options.longest_carried_run,
        "Drops side by side that hold a carried strand well (default: 5)");
  limit("--longest-skip", command->options.longest_skip,
        "Inset: skipped stitches side by side that do not gape (default: 3)");
  limit("--longest-flap", command->options.longest_flap,
        "Overlay: drops side by side without a loose flap behind (default: 8)");
}

struct RepairCommand : ChartCommand {
  std::vector<std::string> symmetries;
  std::vector<std::string> locks;
  int longest_run = 0;

  explicit RepairCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    if (!output->out.empty()) FileFormatOf("--out", output->out, false);
    v1::RepairChartRequest request;
    *request.mutable_design() = design();
    for (const std::string& word : symmetries) {
      request.mutable_options()->add_symmetries(EnumOf<v1::Symmetry>(Symmetries(), word));
    }
    for (const std::string& text : locks) {
      *request.mutable_options()->add_locked_areas() = AreaOf("--lock", text);
    }
    request.mutable_options()->set_longest_run(longest_run);
    const auto answer =
        Connection::Local().Ask<v1::RepairResult>("ChartService.RepairChart", request);
    if (!output->out.empty()) {
      v1::Design repaired = request.design();
      *repaired.mutable_chart() = answer.repaired();
      WriteChartFile(repaired, output->out);
    }
    ShowOnScreen(answer, TextOf(answer, output->style));
  }
};

void AddRepair(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<RepairCommand>(shared);
  OptionUse use;
  use.materials.foundation = true;
  auto* added = AddChartCommand(app, "repair",
                                "Change as few cells as possible so that a chart can be worked",
                                "rowproof repair mat.png --lock 1-4:all --out mended.png", use,
                                command, [c = command.get()] { c->Run(); });
  added
      ->add_option("--symmetry", command->symmetries,
                   "A symmetry that the repaired picture must have; may be repeated")
      ->check(OneOf("--symmetry", Symmetries()))
      ->expected(1)
      ->take_all()
      ->group(kRepairGroup);
  AddTexts(*added, "--lock", command->locks,
           "Cells that must stay as they are: ROWS:STITCHES, such as 5-8:1-10 or all:1; may be "
           "repeated")
      ->group(kRepairGroup);
  added->add_option("--longest-run", command->longest_run, "Most drops side by side; 0: no limit")
      ->group(kRepairGroup);
}

struct ConvertCommand : ChartCommand {
  std::string technique;
  std::string chart_kind;
  std::string facing;
  std::string ends;
  std::vector<std::string> gauges_after;

  explicit ConvertCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    if (technique.empty() && chart_kind.empty() && facing.empty() && ends.empty()) {
      throw Failure(ExitCode::kUsage,
                    "nothing to convert to: give --to-technique, --to-chart, --to-facing or "
                    "--to-ends");
    }
    if (!output->out.empty()) FileFormatOf("--out", output->out, false);
    v1::ConvertChartRequest request;
    *request.mutable_design() = design();
    request.set_technique(EnumOf<v1::Technique>(Techniques(), technique));
    request.set_convention(EnumOf<v1::Convention>(Charts(), chart_kind));
    request.set_facing(EnumOf<v1::Facing>(Facings(), facing));
    request.set_ends(EnumOf<v1::Ends>(EndsWords(), ends));
    request.set_terms(EnumOf<v1::Terms>(TermsWords(), options.chart.terms));
    if (const auto made = materials_if_given(); made.has_value())
      *request.mutable_materials() = *made;
    if (!gauges_after.empty()) {
      MaterialsOptions after = options.materials;
      after.gauges = gauges_after;
      after.stitches_per_10cm.reset();
      after.rows_per_10cm.reset();
      *request.mutable_materials_after() = MaterialsOf(after);
    }
    const auto answer = ConnectionFor(request.materials())
                            .Ask<v1::ConvertedChart>("ChartService.ConvertChart", request);
    if (!output->out.empty()) WriteChartFile(answer.design(), output->out);
    ShowOnScreen(answer, TextOf(answer, output->style));
  }
};

void AddConvert(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<ConvertCommand>(shared);
  OptionUse use;
  use.chart.terms = true;
  use.materials = {true, true, true, false};
  auto* added =
      AddChartCommand(app, "convert", "Convert a chart to another technique or kind of chart",
                      "rowproof convert mat.png --to-technique inset --out inset.png", use, command,
                      [c = command.get()] { c->Run(); });
  const auto to = [added](const char* option, std::string& value, const Words& words,
                          const char* help) {
    AddWord(*added, option, value, words, help)->group(kConversionGroup);
  };
  to("--to-technique", command->technique, Techniques(), "Technique to convert to");
  to("--to-chart", command->chart_kind, Charts(), "Kind of chart to convert to");
  to("--to-facing", command->facing, Facings(), "Facing afterwards (default: as now, if it fits)");
  to("--to-ends", command->ends, EndsWords(), "Ends afterwards (default: as now, if they fit)");
  AddTexts(
      *added, "--gauge-after", command->gauges_after,
      "As --gauge, counted in the new fabric (default: the gauge is kept and marked as another "
      "fabric's)")
      ->group(kConversionGroup);
}

struct RepeatsCommand : ChartCommand {
  int most_answers = 0;
  bool sides_may_change = false;

  explicit RepeatsCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    if (!output->out.empty()) FileFormatOf("--out", output->out, false);
    v1::FindRepeatsRequest request;
    *request.mutable_design() = design();
    request.set_max_answer_count(most_answers);
    request.set_sides_may_change(sides_may_change);
    const auto answer = Connection::Local().Ask<v1::Repeats>("ChartService.FindRepeats", request);
    if (!output->out.empty()) {
      if (answer.answers().empty()) {
        throw Failure(ExitCode::kRefused,
                      "nothing is repeated, so there is no chart for --out to write");
      }
      WriteChartFile(answer.answers(0).reduced(), output->out);
    }
    ShowOnScreen(answer, TextOf(answer));
  }
};

void AddRepeats(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<RepeatsCommand>(shared);
  OptionUse use;
  use.chart.bands = false;
  auto* added = AddChartCommand(app, "repeats", "Find what a full-size drawing repeats",
                                "rowproof repeats full.png --out repeat.png", use, command,
                                [c = command.get()] { c->Run(); });
  added
      ->add_option("--answers", command->most_answers,
                   "Most answers to show, 1 to 100 (default: 10)")
      ->group(kOutputGroup);
  added
      ->add_flag("--sides-may-change", command->sides_may_change,
                 "Also bands after which RS and WS have changed places")
      ->group(kChartGroup);
}

}  // namespace

void AddChartDesignCommands(CLI::App& app, const ChartCommand& shared) {
  AddCheck(app, shared);
  AddRepair(app, shared);
  AddConvert(app, shared);
  AddRepeats(app, shared);
}

}  // namespace rowproof::client
