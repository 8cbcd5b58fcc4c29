// reconcile and release.
#include <memory>
#include <vector>

#include "fmt/format.h"
#include "rowproof/v1/reconciliation_service.pb.h"
#include "rowproof/v1/release_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/tables/reconciliation.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

constexpr char kQuantity[] = "yarn-a to yarn-h, yarn-border, width, height or time";
constexpr char kSetAsideName[] = "The set-aside's name: patterns/.../testCalls/.../setAsides/...";

// The quantity that is printed as `word` ("yarn-a", "yarn-border", "width"); throws Failure
// (usage).
v1::Quantity QuantityOf(const std::string& word) {
  v1::Quantity quantity;
  for (int kind = v1::QUANTITY_KIND_YARN; kind <= v1::QuantityKind_MAX; ++kind) {
    quantity.set_kind(static_cast<v1::QuantityKind>(kind));
    const int last = kind == v1::QUANTITY_KIND_YARN ? v1::YarnRole_MAX : v1::YARN_ROLE_A;
    for (int role = v1::YARN_ROLE_A; role <= last; ++role) {
      quantity.set_role(kind == v1::QUANTITY_KIND_YARN ? static_cast<v1::YarnRole>(role)
                                                       : v1::YARN_ROLE_UNSPECIFIED);
      if (WordOf(quantity) == word) return quantity;
    }
  }
  throw MustBe("QUANTITY", kQuantity, word);
}

std::string ReconciliationText(const v1::Reconciliation& answer, const Style& style) {
  return TextOf(answer, style);
}

std::string ReconciliationList(const v1::ListReconciliationsResponse& answer) {
  return ListOf(
      answer.reconciliations(),
      {{"Name", "name"}, {"Version", "version"}, {"Made", "create_time"}, {"Reports", "reports"}});
}

std::string SetAsideText(const v1::SetAside& answer) {
  return fmt::format("{}\nSeat: {}\nQuantity: {}\n", answer.name(), answer.seat(),
                     WordOf(answer.quantity())) +
         Paragraph("Note: ", answer.note()) + "Since: " + TimeText(answer.create_time()) + "\n";
}

std::string SetAsideList(const v1::ListSetAsidesResponse& answer) {
  if (answer.set_asides().empty()) return "None.\n";
  std::string text;
  for (const auto& one : answer.set_asides())
    text += (text.empty() ? "" : "\n") + SetAsideText(one);
  return text;
}

void AddSetAsides(CLI::App& noun, const Api& api) {
  const auto word = std::make_shared<std::string>();
  Verb<v1::CreateSetAsideRequest, v1::SetAside> made(
      noun, api, "set-aside", "Leave one measurement out of the next reconciliations",
      "ReconciliationService.CreateSetAside", SetAsideText);
  made.Field("SEAT", "seat", kSeatName);
  made.command().add_option("QUANTITY", *word, kQuantity)->required();
  made.Needed("--note", "note", "Why").Before([word](v1::CreateSetAsideRequest& request) {
    *request.mutable_quantity() = QuantityOf(*word);
    request.set_parent(request.seat().substr(0, request.seat().find("/seats/")));
  });
  AddList<v1::ListSetAsidesRequest, v1::ListSetAsidesResponse>(
      noun, api, "set-asides", "What is left out of a call's reconciliations, by seat",
      "ReconciliationService.ListSetAsides", kCallName,
      std::make_shared<v1::ListSetAsidesRequest>(), SetAsideList);
  Verb<v1::GetSetAsideRequest, v1::SetAside>(noun, api, "show-set-aside",
                                             "One measurement that is left out, and why",
                                             "ReconciliationService.GetSetAside", SetAsideText)
      .Field("SET-ASIDE", "name", kSetAsideName);
  Verb<v1::DeleteSetAsideRequest, v1::DeleteSetAsideResponse>(
      noun, api, "take-back", "Use a set-aside measurement again",
      "ReconciliationService.DeleteSetAside",
      [](const v1::DeleteSetAsideResponse&) {
        return std::string("The measurement is used again.\n");
      })
      .Field("SET-ASIDE", "name", kSetAsideName);
}

void AddReconcile(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "reconcile", "Measured against predicted, and what follows");
  Verb<v1::CreateReconciliationRequest, v1::Reconciliation>(
      *noun, api, "new", "Reconcile the newest reports of a call and keep the result",
      "ReconciliationService.CreateReconciliation", ReconciliationText)
      .Field("CALL", "parent", kCallName);
  Verb<v1::GetReconciliationRequest, v1::Reconciliation>(*noun, api, "show", "One reconciliation",
                                                         "ReconciliationService.GetReconciliation",
                                                         ReconciliationText)
      .Field("RECONCILIATION", "name", "Its name: patterns/.../testCalls/.../reconciliations/...");
  AddList<v1::ListReconciliationsRequest, v1::ListReconciliationsResponse>(
      *noun, api, "list", "Reconciliations of a call, newest first",
      "ReconciliationService.ListReconciliations", kCallName,
      std::make_shared<v1::ListReconciliationsRequest>(), ReconciliationList);
  AddSetAsides(*noun, api);
}

template <typename Gates>
std::string GatesText(const Gates& gates) {
  return ListOf(gates, {{"Gate", "code"},
                        {"State", "state"},
                        {"What holds, or is missing", "sentence"},
                        {"Passed over because", "reason"}});
}

std::string ReleaseText(const v1::Release& release, const Style& style) {
  std::string text = release.name().empty() ? std::string("Nothing was stored; it would be:\n")
                                            : release.name() + "\n";
  text += "Version: " + release.version() + "\n";
  if (!release.test_call().empty()) text += "Test call: " + release.test_call() + "\n";
  if (!release.reconciliation().empty()) text += "Amounts by: " + release.reconciliation() + "\n";
  if (!release.name().empty()) text += "Published: " + TimeText(release.create_time()) + "\n";
  if (release.state() == v1::RELEASE_STATE_WITHDRAWN) {
    text += Paragraph("Withdrawn: ",
                      TimeText(release.withdraw_time()) + ", " + release.withdraw_reason());
  }
  if (style.details || release.files().empty()) text += "\n" + GatesText(release.gates());
  if (release.files().empty()) return text;
  text += "\n" + ListOf(release.files(),
                        {{"File", "kind"}, {"Name", "file_name"}, {"Bytes", "size_bytes"}});
  // As sha256sum -c reads them.
  if (!style.details) return text + "\n--details shows the gates and each file's SHA-256.\n";
  text += "\nSHA-256\n";
  for (const auto& file : release.files()) text += file.sha256() + "  " + file.file_name() + "\n";
  return text;
}

std::string ReleaseList(const v1::ListReleasesResponse& answer) {
  return ListOf(
      answer.releases(),
      {{"Name", "name"}, {"Version", "version"}, {"Published", "create_time"}, {"State", "state"}});
}

v1::Waiver WaiverOf(const std::string& text) {
  const size_t equals = text.find('=');
  v1::Waiver waiver;
  if (equals == std::string::npos) {
    throw MustBe("--pass-over",
                 "GATE=REASON, such as errata-decided=\"the rest concerns photographs\"", text);
  }
  SetField(&waiver, "code", text.substr(0, equals), "--pass-over");
  waiver.set_reason(text.substr(equals + 1));
  return waiver;
}

void AddPublish(CLI::App& noun, const Api& api) {
  const auto passed = std::make_shared<std::vector<std::string>>();
  Verb<v1::CreateReleaseRequest, v1::Release> verb(
      noun, api, "publish",
      "Publish a version: writes and keeps its sheets; refused while gates are open",
      "ReleaseService.CreateRelease", ReleaseText);
  verb.Field("VERSION", "version", "The version's name: patterns/.../versions/...")
      .Flag("--validate-only", "validate_only", "Show how the gates would stand; store nothing")
      .Field("--call", "test_call", kCallName)
      .Field("--terms", "sheet.terms",
             "Stitch names of the pattern sheet, us or uk (default: those of your own text, or us)")
      .Field(
          "--repeats", "sheet.repeat_style",
          "Mark of repeats within its rows: brackets or asterisk; your own text is printed as it "
          "is");
  verb.command()
      .add_option("--pass-over", *passed,
                  "GATE=REASON: pass over an open gate; repeat for each gate")
      ->expected(1)
      ->take_all();
  verb.Called("--pass-over", "waivers").Before([passed](v1::CreateReleaseRequest& request) {
    request.set_parent(request.version().substr(0, request.version().find("/versions/")));
    for (const auto& text : *passed) *request.add_waivers() = WaiverOf(text);
  });
}

// Writes the file itself; with --json its record, content included, as the API has it.
void AddFetch(CLI::App& noun, const Api& api) {
  Verb<v1::GetReleaseFileRequest, v1::ReleaseFile>(
      noun, api, "fetch", "One file of a release, to --out or standard output",
      "ReleaseService.GetReleaseFile", [](const v1::ReleaseFile& file) { return file.content(); })
      .Field("RELEASE", "name", "The release's name: patterns/.../releases/...")
      .Field("KIND", "kind", "pattern-sheet-pdf, errata-sheet-pdf or errata-sheet-text");
}

void AddRelease(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "release", "Published versions and their sheets");
  Verb<v1::GetGatesRequest, v1::GetGatesResponse>(
      *noun, api, "gates", "What has to be settled before a version is published",
      "ReleaseService.GetGates",
      [](const v1::GetGatesResponse& answer) { return GatesText(answer.gates()); })
      .Field("VERSION", "version", "The version's name: patterns/.../versions/...")
      .Field("--call", "test_call", kCallName);
  AddPublish(*noun, api);
  Verb<v1::GetReleaseRequest, v1::Release>(*noun, api, "show", "One release",
                                           "ReleaseService.GetRelease", ReleaseText)
      .Field("RELEASE", "name", "The release's name: patterns/.../releases/...");
  AddList<v1::ListReleasesRequest, v1::ListReleasesResponse>(
      *noun, api, "list", "A pattern's releases, newest first", "ReleaseService.ListReleases",
      kPatternName, std::make_shared<v1::ListReleasesRequest>(), ReleaseList);
  Verb<v1::WithdrawReleaseRequest, v1::Release>(
      *noun, api, "withdraw", "Take a release back; it stays readable, marked as withdrawn",
      "ReleaseService.WithdrawRelease", ReleaseText)
      .Field("RELEASE", "name", "The release's name: patterns/.../releases/...")
      .Needed("--reason", "reason", "Why; everybody who may read the release sees it");
  AddFetch(*noun, api);
}

}  // namespace

void AddReleaseCommands(CLI::App& app, const Api& api) {
  AddReconcile(app, api);
  AddRelease(app, api);
}

}  // namespace rowproof::client
