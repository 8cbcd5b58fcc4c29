// report and erratum.
#include <algorithm>
#include <memory>
#include <string_view>

#include "fmt/format.h"
#include "rowproof/v1/report.pb.h"
#include "rowproof/v1/report_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

constexpr char kErratumName[] = "The erratum's name: patterns/.../testCalls/.../errata/...";

std::string SlipsText(const v1::Report& report) {
  std::string text;
  for (const auto& slip : report.slips()) {
    text += Paragraph(slip.hint() ? "  hint: " : "  please look: ", slip.sentence());
  }
  return text.empty() ? text : "\nQuestions (nothing was changed)\n" + text;
}

std::string ReportText(const v1::Report& report, const Style& style) {
  v1::Report shown = report;
  shown.clear_slips();
  return RecordOf(shown, style) + SlipsText(report);
}

std::string FormText(const v1::CreateReportFromFormResponse& answer, const Style& style) {
  std::string text = ReportText(answer.report(), style);
  if (!answer.notes().empty()) text += "\nNot read\n";
  for (const auto& note : answer.notes()) {
    text += Paragraph(fmt::format("  line {}, column {}: ", note.line(), note.column()),
                      note.sentence());
  }
  return text;
}

std::string ReportList(const v1::ListReportsResponse& answer) {
  return ListOf(answer.reports(), {{"Name", "name"},
                                   {"Size", "size"},
                                   {"Row", "content.last_row"},
                                   {"Finished", "content.finished"},
                                   {"Errata", "content.errata"},
                                   {"Entered", "create_time"},
                                   {"On behalf", "on_behalf"}});
}

std::string ErratumText(const v1::Erratum& erratum, const Style& style) {
  return RecordOf(erratum, style);
}

std::string ErratumList(const v1::ListErrataResponse& answer) {
  return ListOf(answer.errata(), {{"Name", "name"},
                                  {"State", "state"},
                                  {"Row", "chart_row"},
                                  {"From", "first_stitch"},
                                  {"To", "last_stitch"},
                                  {"Kind", "entry.kind"},
                                  {"Said by", "confirmations"},
                                  {"Was", "entry.was"},
                                  {"Should be", "entry.should_be"}});
}

// A seat's name from its "patterns/" on, and how long it is; 0 if it is none. Forms sent out before
// the collection was called testCalls say calls.
size_t SeatNameLength(std::string_view text) {
  size_t at = 0;
  for (const std::string_view collection : {"patterns/", "", "seats/"}) {
    if (collection.empty()) {
      if (text.substr(at).starts_with("testCalls/"))
        at += std::string_view("testCalls/").size();
      else if (text.substr(at).starts_with("calls/"))
        at += std::string_view("calls/").size();
      else
        return 0;
    } else {
      if (!text.substr(at).starts_with(collection)) return 0;
      at += collection.size();
    }
    const size_t end = std::min(text.find_first_of("/ \t\r\n", at), text.size());
    if (end == at) return 0;
    at = end;
    if (collection == "seats/") return at;
    if (at == text.size() || text[at] != '/') return 0;
    ++at;
  }
  return 0;
}

}  // namespace

std::string SeatIn(const std::string& form) {
  for (size_t at = form.find("patterns/"); at != std::string::npos;
       at = form.find("patterns/", at + 1)) {
    const size_t length = SeatNameLength(std::string_view(form).substr(at));
    if (length > 0) return form.substr(at, length);
  }
  throw Failure(ExitCode::kRefused, "FORM names no seat: keep its \"seat:\" line, or give --seat");
}

namespace {

void AddReport(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "report", "What testers report");
  Verb<v1::CreateReportFromFormRequest, v1::CreateReportFromFormResponse>(
      *noun, api, "send", "Send a filled-in form; prints questions about likely slips",
      "ReportService.CreateReportFromForm", FormText)
      .FileField("FORM", "form_text", "The filled-in form; - is standard input")
      .Field("--seat", "parent", "The seat's name (default: the one that the form names)")
      .Flag("--validate-only", "validate_only", "Read and ask, but store nothing")
      .Before([](v1::CreateReportFromFormRequest& request) {
        if (request.parent().empty()) request.set_parent(SeatIn(request.form_text()));
      });
  const auto file = std::make_shared<std::string>();
  Verb<v1::CreateReportRequest, v1::Report> entered(
      *noun, api, "enter", "Enter a report from JSON (the API's ReportContent)",
      "ReportService.CreateReport", ReportText);
  entered.Field("SEAT", "parent", kSeatName)
      .Flag("--validate-only", "validate_only", "Check and ask, but store nothing");
  entered.command().add_option("FILE", *file, "The JSON file; - is standard input")->required();
  entered.Before([file](v1::CreateReportRequest& request) {
    ReadJson("FILE", ReadFile(*file), request.mutable_content());
  });
  Verb<v1::GetReportRequest, v1::Report>(*noun, api, "show", "One revision of a report",
                                         "ReportService.GetReport", ReportText)
      .Field("REPORT", "name", "The report's name: patterns/.../seats/.../reports/...");
  AddList<v1::ListReportsRequest, v1::ListReportsResponse>(
      *noun, api, "list", "Revisions of a seat's report, or the newest of each seat of a call",
      "ReportService.ListReports", "The name of the seat or of the test call",
      std::make_shared<v1::ListReportsRequest>(), ReportList);
}

void AddDecision(CLI::App& noun, const Api& api, const char* name, const char* help,
                 v1::ErratumState state) {
  Verb<v1::DecideErratumRequest, v1::Erratum>(noun, api, name, help, "ReportService.DecideErratum",
                                              ErratumText)
      .Field("ERRATUM", "name", kErratumName)
      .Field("--note", "note", "Your words to the testers; needed to decline or reopen")
      .Before([state](v1::DecideErratumRequest& request) { request.set_state(state); });
}

void AddErratum(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "erratum", "Errata of a test call");
  const auto asked = std::make_shared<v1::ListErrataRequest>();
  auto* list = AddList<v1::ListErrataRequest, v1::ListErrataResponse>(
      *noun, api, "list", "Errata of a call by row", "ReportService.ListErrata", kCallName, asked,
      ErratumList);
  list->add_option_function<std::string>(
      "--state",
      [asked](const std::string& word) { SetField(asked.get(), "state", word, "--state"); },
      "Only those that are open, accepted or declined");
  list->add_flag_function(
      "--withdrawn", [asked](std::int64_t) { asked->set_show_withdrawn(true); },
      "Withdrawn ones as well");
  Verb<v1::GetErratumRequest, v1::Erratum>(*noun, api, "show", "One erratum and what became of it",
                                           "ReportService.GetErratum", ErratumText)
      .Field("ERRATUM", "name", kErratumName);
  AddDecision(*noun, api, "accept", "Accept an erratum: it is to be corrected",
              v1::ERRATUM_STATE_ACCEPTED);
  AddDecision(*noun, api, "decline", "Decline an erratum: no fault", v1::ERRATUM_STATE_DECLINED);
  AddDecision(*noun, api, "reopen", "Take a decision back", v1::ERRATUM_STATE_OPEN);
  Verb<v1::ConfirmErratumRequest, v1::Erratum>(*noun, api, "confirm",
                                               "Say whether you met another tester's erratum too",
                                               "ReportService.ConfirmErratum", ErratumText)
      .Field("ERRATUM", "name", kErratumName)
      .Field("WORD", "confirmation", "met-it-too or worked-it-right");
}

}  // namespace

void AddReportCommands(CLI::App& app, const Api& api) {
  AddReport(app, api);
  AddErratum(app, api);
}

}  // namespace rowproof::client
