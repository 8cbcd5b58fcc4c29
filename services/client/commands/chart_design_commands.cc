// check, repair, convert, repeats.
#include <vector>

#include "services/client/commands/chart_command.h"
#include "services/client/connection.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/choices.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/conversion.h"

namespace rowproof::client {
namespace {

struct CheckCommand : ChartCommand {
  std::optional<int> longest_carried_run;
  std::optional<int> longest_skip;
  std::optional<int> longest_flap;

  explicit CheckCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    v1::CheckChartRequest request;
    *request.mutable_design() = design();
    v1::CheckSettings& settings = *request.mutable_settings();
    if (longest_carried_run.has_value()) settings.set_longest_carried_run(*longest_carried_run);
    if (longest_skip.has_value()) settings.set_longest_skip(*longest_skip);
    if (longest_flap.has_value()) settings.set_longest_flap(*longest_flap);
    const auto answer =
        Connection::Local().Ask<v1::CheckResult>("ChartService.CheckChart", request);
    Show(answer, TextOf(answer));
    if (!answer.workable()) *exit_code = ExitCode::kContentHasErrors;
  }
};

void AddCheck(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<CheckCommand>(shared);
  auto* added = AddChartCommand(app, "check", "What the workability rules find in a chart", command,
                                [c = command.get()] { c->Run(); });
  added->add_option("--longest-carried-run", command->longest_carried_run,
                    "Drops side by side that hold a carried strand well; else 5");
  added->add_option("--longest-skip", command->longest_skip,
                    "Inset: skipped stitches side by side that do not gape; else 3");
  added->add_option("--longest-flap", command->longest_flap,
                    "Overlay: drops side by side without a loose flap behind; else 8");
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
      *request.mutable_options()->add_locked() = AreaOf("--lock", text);
    }
    request.mutable_options()->set_longest_run(longest_run);
    const auto answer =
        Connection::Local().Ask<v1::RepairResult>("ChartService.RepairChart", request);
    if (!output->out.empty()) {
      v1::Design repaired = request.design();
      *repaired.mutable_chart() = answer.repaired();
      WriteChartFile(repaired, output->out);
    }
    ShowOnScreen(answer, TextOf(answer));
  }
};

void AddRepair(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<RepairCommand>(shared);
  auto* added = AddChartCommand(
      app, "repair", "The fewest changed cells that make a chart workable; --out writes it",
      command, [c = command.get()] { c->Run(); });
  added
      ->add_option("--symmetry", command->symmetries,
                   "A symmetry that the repaired picture is to have: left-right, top-to-bottom or "
                   "half-turn; may be repeated")
      ->check(CLI::IsMember(Symmetries()))
      ->expected(1)
      ->take_all();
  added
      ->add_option(
          "--lock", command->locks,
          "Cells that must stay as they are: ROWS:STITCHES, such as 5-8:1-10 or all:1; may "
          "be repeated")
      ->expected(1)
      ->take_all();
  added->add_option("--longest-run", command->longest_run, "Most drops side by side; 0: no limit");
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
                    "convert: nothing to convert to; accepted are --to-technique, --to-chart, "
                    "--to-facing and --to-ends");
    }
    if (!output->out.empty()) FileFormatOf("--out", output->out, false);
    v1::ConvertChartRequest request;
    *request.mutable_design() = design();
    request.set_technique(EnumOf<v1::Technique>(Techniques(), technique));
    request.set_convention(EnumOf<v1::Convention>(Charts(), chart_kind));
    request.set_facing(EnumOf<v1::Facing>(Facings(), facing));
    request.set_ends(EnumOf<v1::Ends>(EndsWords(), ends));
    request.set_terms(EnumOf<v1::Terms>(TermsWords(), chart.terms));
    if (const auto made = making_if_given(); made.has_value()) *request.mutable_making() = *made;
    if (!gauges_after.empty()) {
      MakingOptions after = making;
      after.gauges = gauges_after;
      after.stitches_per_10cm.reset();
      after.rows_per_10cm.reset();
      *request.mutable_making_after() = MakingOf(after);
    }
    const auto answer = ConnectionFor(request.making())
                            .Ask<v1::ConvertedChart>("ChartService.ConvertChart", request);
    if (!output->out.empty()) WriteChartFile(answer.design(), output->out);
    ShowOnScreen(answer, TextOf(answer));
  }
};

void AddConvert(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<ConvertCommand>(shared);
  auto* added = AddChartCommand(
      app, "convert",
      "A chart for another technique or as the other kind of chart; --out writes it", command,
      [c = command.get()] { c->Run(); });
  AddWord(*added, "--to-technique", command->technique, Techniques(), "Technique to convert to");
  AddWord(*added, "--to-chart", command->chart_kind, Charts(), "Kind of chart to convert to");
  AddWord(*added, "--to-facing", command->facing, Facings(),
          "Facing afterwards; else as it is worked now, where the technique leaves a choice");
  AddWord(*added, "--to-ends", command->ends, EndsWords(),
          "Ends afterwards; else as they are where that fits");
  added
      ->add_option("--gauge-after", command->gauges_after,
                   "As --gauge, counted in the new fabric, for yarn and size afterwards; else the "
                   "gauge is taken over and marked as another fabric's")
      ->expected(1)
      ->take_all();
}

struct RepeatsCommand : ChartCommand {
  int most_answers = 0;
  bool sides_may_change = false;

  explicit RepeatsCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() const {
    if (!output->out.empty()) FileFormatOf("--out", output->out, false);
    v1::FindRepeatsRequest request;
    *request.mutable_design() = design();
    request.set_most_answers(most_answers);
    request.set_sides_may_change(sides_may_change);
    const auto answer = Connection::Local().Ask<v1::Repeats>("ChartService.FindRepeats", request);
    if (!output->out.empty()) {
      if (answer.answers().empty()) {
        throw Failure(ExitCode::kRefused,
                      "--out: there is no repeat to write a chart of; accepted is a drawing that "
                      "repeats stitches or rows");
      }
      WriteChartFile(answer.answers(0).reduced(), output->out);
    }
    ShowOnScreen(answer, TextOf(answer));
  }
};

void AddRepeats(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<RepeatsCommand>(shared);
  auto* added = AddChartCommand(
      app, "repeats",
      "The bands that a full-size drawing repeats; --out writes the first answer's chart", command,
      [c = command.get()] { c->Run(); });
  added->add_option("--answers", command->most_answers, "Most answers to show, 1 to 100; else 10");
  added->add_flag("--sides-may-change", command->sides_may_change,
                  "Also bands after which RS and WS have changed places");
}

}  // namespace

void AddChartDesignCommands(CLI::App& app, const ChartCommand& shared) {
  AddCheck(app, shared);
  AddRepair(app, shared);
  AddConvert(app, shared);
  AddRepeats(app, shared);
}

}  // namespace rowproof::client
