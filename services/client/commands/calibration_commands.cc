// calibration.
#include <memory>

#include "rowproof/v1/calibration_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/parsing/measurement_options.h"
#include "services/client/tables/calibration.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

constexpr char kCalibrationName[] = "The calibration's name: calibrations/...";
constexpr char kFileHelp[] =
    "JSON of what was measured, as calibrate takes it, for several swatches or whole pieces; a "
    "swatch typed here is added to it";

template <typename Answer>
std::string Shown(const Answer& answer, const Style& style) {
  return TextOf(answer, style);
}

void AddNew(CLI::App& noun, const Api& api) {
  struct Given {
    MeasurementOptions measured;
    ScopeOptions scope;
  };
  const auto given = std::make_shared<Given>();
  Verb<v1::CreateCalibrationRequest, v1::Calibration> verb(
      noun, api, "new",
      "Keep what a swatch or piece of yours took; needs --technique and --weight-class",
      "CalibrationService.CreateCalibration", Shown<v1::Calibration>);
  verb.Field("TITLE", "title", "What to call it, such as \"Oat, my hands\"");
  verb.command().add_option("FILE", given->measured.file, kFileHelp);
  verb.Field("--note", "note", "Note on the first revision");
  AddScopeOptions(verb.command(), given->scope);
  AddMeasurementOptions(verb.command(), given->measured);
  verb.Before([given](v1::CreateCalibrationRequest& request) {
    v1::CalibrateYarnRequest measured = MeasurementsOf(given->measured);
    *request.mutable_scope() = measured.scope();
    SetScope(given->scope, given->measured.materials.weight_class, request.mutable_scope());
    request.mutable_measurements()->Swap(measured.mutable_measurements());
  });
}

void AddAdd(CLI::App& noun, const Api& api) {
  struct Given {
    MeasurementOptions measured;
    std::vector<int> left_out;
  };
  const auto given = std::make_shared<Given>();
  Verb<v1::CreateCalibrationRevisionRequest, v1::CalibrationRevision> verb(
      noun, api, "add", "Add what you measured since, or leave a slip out: a further revision",
      "CalibrationService.CreateCalibrationRevision", Shown<v1::CalibrationRevision>);
  verb.Field("CALIBRATION", "parent", kCalibrationName);
  verb.command().add_option("FILE", given->measured.file, kFileHelp);
  verb.Field("--note", "note", "Why there is a further revision")
      .Field("--etag", "etag", "Only if the calibration still has this etag");
  verb.command()
      .add_option("--leave-out", given->left_out,
                  "Number of a measurement that no longer counts; may be repeated")
      ->expected(1)
      ->take_all();
  AddMeasurementOptions(verb.command(), given->measured);
  verb.Before([given](v1::CreateCalibrationRevisionRequest& request) {
    v1::CalibrateYarnRequest measured = MeasurementsOf(given->measured);
    request.mutable_measurements()->Swap(measured.mutable_measurements());
    request.mutable_left_out()->Add(given->left_out.begin(), given->left_out.end());
  });
}

// A name of either kind.
void AddShow(CLI::App& noun, const Api& api) {
  const auto name = std::make_shared<std::string>();
  CLI::App* command =
      noun.add_subcommand("show", "A calibration with its newest revision, or one revision of it");
  command
      ->add_option("CALIBRATION", *name,
                   "The name: calibrations/... or calibrations/.../revisions/...")
      ->required();
  command->callback([name, &api] {
    const Connection connection = Connection::ToServer(api.connection);
    if (name->find("/revisions/") == std::string::npos) {
      v1::GetCalibrationRequest request;
      request.set_name(*name);
      ShowAnswer<v1::Calibration>(
          api, connection.Ask<v1::Calibration>("CalibrationService.GetCalibration", request),
          Shown<v1::Calibration>);
      return;
    }
    v1::GetCalibrationRevisionRequest request;
    request.set_name(*name);
    ShowAnswer<v1::CalibrationRevision>(api,
                                        connection.Ask<v1::CalibrationRevision>(
                                            "CalibrationService.GetCalibrationRevision", request),
                                        Shown<v1::CalibrationRevision>);
  });
}

void AddListing(CLI::App& noun, const Api& api) {
  const auto request = std::make_shared<v1::ListCalibrationsRequest>();
  CLI::App* command = AddList<v1::ListCalibrationsRequest, v1::ListCalibrationsResponse>(
      noun, api, "list", "The calibrations that you keep, newest first",
      "CalibrationService.ListCalibrations", nullptr, request, Shown<v1::ListCalibrationsResponse>);
  command->add_option_function<std::string>(
      "--technique",
      [request](const std::string& word) {
        SetField(request.get(), "technique", word, "--technique");
      },
      "Only those of this technique: spike, overlay or inset");
  command->add_option_function<std::string>(
      "--weight-class",
      [request](const std::string& number) {
        SetField(request.get(), "weight_class", number, "--weight-class");
      },
      "Only those of this standard yarn weight, 0 to 7");
  AddList<v1::ListCalibrationRevisionsRequest, v1::ListCalibrationRevisionsResponse>(
      noun, api, "revisions", "The revisions of one, newest first",
      "CalibrationService.ListCalibrationRevisions", kCalibrationName,
      std::make_shared<v1::ListCalibrationRevisionsRequest>(),
      Shown<v1::ListCalibrationRevisionsResponse>);
}

}  // namespace

void AddCalibrationCommands(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "calibration", "What your own stitches take, kept in revisions");
  AddNew(*noun, api);
  AddAdd(*noun, api);
  AddListing(*noun, api);
  AddShow(*noun, api);
  Verb<v1::UpdateCalibrationRequest, v1::Calibration>(
      *noun, api, "rename", "Change a calibration's title", "CalibrationService.UpdateCalibration",
      Shown<v1::Calibration>)
      .Field("CALIBRATION", "calibration.name", kCalibrationName)
      .Change("TITLE", "calibration.title", "The new title")
      .Field("--etag", "calibration.etag", "Only if the calibration still has this etag");
  Verb<v1::DeleteCalibrationRequest, v1::DeleteCalibrationResponse>(
      *noun, api, "delete",
      "Delete a calibration and all its revisions; versions keep what they used of it",
      "CalibrationService.DeleteCalibration",
      [](const v1::DeleteCalibrationResponse&) { return std::string("It is deleted.\n"); })
      .Field("CALIBRATION", "name", kCalibrationName)
      .Field("--etag", "etag", "Only if the calibration still has this etag");
}

}  // namespace rowproof::client
