// version.
#include <memory>

#include "fmt/format.h"
#include "rowproof/v1/pattern.pb.h"
#include "rowproof/v1/pattern_service.pb.h"
#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/parsing/chart_options.h"
#include "services/client/parsing/choices.h"
#include "services/client/parsing/materials_options.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/estimate.h"
#include "services/client/tables/table.h"
#include "services/client/tables/text.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

constexpr char kVersionName[] = "The version's name: patterns/.../versions/...";

// One line for each size, or all of it with details.
std::string EstimatesText(const google::protobuf::RepeatedPtrField<v1::SizeEstimate>& estimates,
                          const Style& style) {
  std::string text;
  if (style.details) {
    for (const auto& estimate : estimates) text += "\n" + TextOf(estimate, style);
    return text;
  }
  return estimates.empty() ? text : "\n" + SizeTable(estimates, style);
}

std::string VersionText(const v1::Version& version, Style style) {
  const auto& names = version.content().row_settings().colour_names();
  style.colour_names.assign(names.begin(), names.end());
  std::string text = fmt::format("{} ({})\n", version.name(), Word(version.state()));
  text += "Submitted: " + TimeText(version.create_time()) + "\n";
  if (!version.note().empty()) text += Paragraph("Note: ", version.note());
  if (!version.content().title().empty()) text += Paragraph("Title: ", version.content().title());
  if (version.state() == v1::VERSION_STATE_DRAFT) {
    text += "A draft: the chart has errors, so it cannot be sent to testers.\n";
  }
  text += "\n" + TextOf(version.check(), style);
  if (version.has_comparison()) {
    text += "\nYour own rows: " + TextOf(version.comparison(), style, false);
  }
  text += EstimatesText(version.estimates(), style);
  return style.details ? text : text + "\n--details shows each size's estimate.\n";
}

std::string VersionList(const v1::ListVersionsResponse& answer) {
  return ListOf(answer.versions(), {{"Name", "name"},
                                    {"State", "state"},
                                    {"From", "parent_version"},
                                    {"Submitted", "create_time"},
                                    {"Note", "note"}});
}

std::string RowList(const v1::RowDifference& row) {
  std::string text;
  for (const auto& range : row.stitches()) {
    if (!text.empty()) text += ", ";
    text += range.first() == range.last() ? fmt::format("{}", range.first())
                                          : fmt::format("{}-{}", range.first(), range.last());
  }
  return text.empty() ? "-" : text;
}

std::string DifferenceText(const v1::VersionDifference& difference) {
  std::string text = fmt::format(
      "From: {}\nTo: {}\n{}, {}.\n", difference.from(), difference.to(),
      Counted(difference.rows_size(), "row of the chart differs", "rows of the chart differ"),
      Counted(difference.same_row_count(), "is the same", "are the same"));
  if (difference.rows_size() > 0) {
    Table table;
    table.Column("Was row", Table::Side::kRight).Column("Is row", Table::Side::kRight);
    table.Column("What").Column("Stitches");
    for (const auto& row : difference.rows()) {
      table.Row({row.old_row() == 0 ? "-" : std::to_string(row.old_row()),
                 row.new_row() == 0 ? "-" : std::to_string(row.new_row()), Word(row.change()),
                 RowList(row)});
    }
    text += "\n" + table.Text();
  }
  if (difference.fields_size() > 0) {
    text += "\n" + ListOf(difference.fields(), {{"What", "label"}, {"Was", "was"}, {"Is", "now"}});
  }
  return text;
}

// What the design file says about the text around the rows, unless an option does.
void AddPrinted(const PrintedOptions& printed, v1::VersionContent* content) {
  const auto text = [](const std::string& file) {
    return file.empty() ? std::string() : ReadTextFile(file);
  };
  if (content->title().empty()) content->set_title(printed.title);
  if (content->level().empty()) content->set_level(printed.level);
  if (content->introduction().empty()) content->set_introduction(text(printed.introduction));
  if (content->notes().empty()) content->set_notes(text(printed.notes));
  if (content->finishing().empty()) content->set_finishing(text(printed.finishing));
  if (content->designer_text().empty()) content->set_designer_text(text(printed.text));
}

void AddSubmit(CLI::App& noun, const Api& api) {
  struct Given {
    ChartSource source;
    DesignOptions options;
    bool only_asked = false;
    std::string reading;
  };
  const auto given = std::make_shared<Given>();
  Verb<v1::CreateVersionRequest, v1::Version> verb(
      noun, api, "submit",
      "Store a version with its findings and estimates; a draft if it has errors",
      "PatternService.CreateVersion", [given](const v1::Version& version, const Style& style) {
        return given->reading + (given->only_asked ? "Nothing was stored; it would be:\n" : "") +
               VersionText(version, style);
      });
  verb.Field("PATTERN", "parent", kPatternName);
  AddChartSource(verb.command(), given->source);
  verb.Field("--title", "content.title", "Title as printed (default: the pattern's)")
      .Field("--level", "content.level", "How hard it is, in your words")
      .FileField("--introduction", "content.introduction", "Text that stands before the rows")
      .FileField("--notes", "content.notes", "Notes for the maker")
      .FileField("--finishing", "content.finishing", "Border, ends, blocking, care")
      .FileField(
          "--text", "content.designer_text",
          "Your own written rows, for makers of --hand and in --terms (default: the rows are "
          "written from the chart)")
      .Field("--note", "note", "What was changed and why")
      .Field("--parent", "parent_version", "The version it was made from (default: the newest)")
      .Flag("--validate-only", "validate_only", "Check and estimate, but store nothing");
  ChartUse chart_use;
  chart_use.hand = chart_use.terms = chart_use.colour_names = chart_use.rows = true;
  AddChartOptions(verb.command(), given->options.chart, chart_use);
  AddMaterialsOptions(verb.command(), given->options.materials, {true, true, true, false});
  verb.Before([given, &api](v1::CreateVersionRequest& request) {
    const std::string design_path = given->source.Complete(&given->options);
    v1::VersionContent& content = *request.mutable_content();
    *content.mutable_design() = ChartDesignOf(given->options, ReadFile(given->source.file));
    *content.mutable_materials() = MaterialsOf(given->options.materials);
    AddPrinted(given->options.printed, &content);
    given->only_asked = request.validate_only();
    if (!api.output.json) {
      given->reading = ReadingText(content.design().file(), given->source.file, design_path);
    }
    const v1::RowSettings rows = RowSettingsOf(given->options.chart);
    *content.mutable_row_settings() = rows;
    if (content.designer_text().empty()) return;
    content.set_designer_text_hand(rows.hand());
    content.set_designer_text_terms(rows.terms());
  });
}

void AddEstimate(CLI::App& noun, const Api& api) {
  struct Given {
    std::string materials_file;
    std::string ends;
    MaterialsOptions maker;
  };
  const auto given = std::make_shared<Given>();
  Verb<v1::EstimateVersionRequest, v1::EstimateResult> verb(
      noun, api, "estimate", "Yarn, size and time of a version, for your own gauge, yarn and ends",
      "PatternService.EstimateVersion", [](const v1::EstimateResult& answer, const Style& style) {
        std::string text;
        for (const auto& size : answer.sizes()) {
          text += (text.empty() ? "" : "\n") + TextOf(size, style);
        }
        return text;
      });
  verb.Field("VERSION", "name", kVersionName);
  verb.command().add_option("--materials", given->materials_file,
                            "JSON file of the API's Materials (default: the version's)");
  verb.Field("--calibration", "calibration",
             "A calibration that you keep (calibrations/...), in place of the version's");
  AddAnotherMakerOptions(verb.command(), given->maker);
  verb.command()
      .add_option("--ends", given->ends, "How you treat the ends (default: as the version says)")
      ->check(OneOf("--ends", EndsWords()))
      ->group(kMaterialsGroup);
  verb.Before([given](v1::EstimateVersionRequest& request) {
    if (!given->materials_file.empty()) {
      ReadJson("--materials", ReadFile(given->materials_file), request.mutable_materials());
    }
    *request.mutable_another_maker() = AnotherMakerOf(given->maker);
    request.mutable_another_maker()->set_ends(EnumOf<v1::Ends>(EndsWords(), given->ends));
    request.set_size(given->maker.size_name);
  });
}

}  // namespace

void AddVersionCommands(CLI::App& app, const Api& api) {
  auto* version = AddNoun(app, "version", "Versions of a pattern");
  AddSubmit(*version, api);
  AddList<v1::ListVersionsRequest, v1::ListVersionsResponse>(
      *version, api, "list", "A pattern's versions, newest first", "PatternService.ListVersions",
      kPatternName, std::make_shared<v1::ListVersionsRequest>(), VersionList);
  Verb<v1::GetVersionRequest, v1::Version>(*version, api, "show",
                                           "One version with findings and estimates",
                                           "PatternService.GetVersion", VersionText)
      .Field("VERSION", "name", kVersionName);
  Verb<v1::GetVersionRequest, v1::Version>(
      *version, api, "text", "The designer's own written rows of a version, as they were submitted",
      "PatternService.GetVersion",
      [](const v1::Version& answer) {
        const std::string& text = answer.content().designer_text();
        if (text.empty()) {
          throw Failure(ExitCode::kNotFound,
                        fmt::format("{} has no designer's text; \"version rows\" writes "
                                    "its rows",
                                    answer.name()));
        }
        return text.ends_with('\n') ? text : text + '\n';
      })
      .Field("VERSION", "name", kVersionName);
  Verb<v1::WriteVersionRowsRequest, v1::WrittenRows>(
      *version, api, "rows", "The written rows of a version", "PatternService.WriteVersionRows",
      [](const v1::WrittenRows& rows) { return TextOf(rows); })
      .Field("VERSION", "name", kVersionName)
      .Field("--hand", "settings.hand", "right or left (default: the version's, or right)")
      .Field("--terms", "settings.terms", "us or uk (default: the version's, or US)")
      .Field("--repeats", "settings.repeat_style",
             "Mark of repeats: brackets or asterisk (default: the version's, or brackets)")
      .Field("--nesting", "settings.nesting_depth",
             "Nesting of brackets, 0 to 6 (default: the version's, or 2)")
      .Flag("--every-row", "settings.every_row", "Write every row out");
  const auto all_rows = std::make_shared<bool>(false);
  Verb<v1::CompareVersionRowsRequest, v1::TextComparison>(
      *version, api, "compare",
      "The designer's own rows of a version against its chart, row by row",
      "PatternService.CompareVersionRows",
      [all_rows](const v1::TextComparison& answer, const Style& style) {
        return TextOf(answer, style, *all_rows);
      })
      .Field("VERSION", "name", kVersionName)
      .Finds([](const v1::TextComparison& answer) { return !answer.equal(); })
      .command()
      .add_flag("--all-rows", *all_rows, "Show the rows that agree as well, with both texts");
  Verb<v1::CompareVersionsRequest, v1::VersionDifference>(
      *version, api, "difference", "What differs between two versions, by row",
      "PatternService.CompareVersions", DifferenceText)
      .Field("FROM", "from", "The earlier version's name")
      .Field("TO", "to", "The later version's name")
      .Finds([](const v1::VersionDifference& answer) {
        return answer.rows_size() > 0 || answer.fields_size() > 0;
      });
  AddEstimate(*version, api);
}

}  // namespace rowproof::client
