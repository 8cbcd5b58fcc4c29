#include "storage/calibrations.h"

#include <algorithm>
#include <array>
#include <pqxx/pqxx>
#include <utility>

#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/names/names.h"
#include "storage/array_text.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsertCalibration{
    "insert_calibration",
    "insert into calibration (calibration_id, account_id, title, technique, facing, ends, "
    "weight_class, revision_count, created_at) "
    "values ($1, $2, $3, $4, $5, $6, $7, 1, from_micros($8))"};
constexpr Statement kInsertRevision{
    "insert_calibration_revision",
    "insert into calibration_revision (calibration_id, number, created_at, note, model_version, "
    "measurement_count, path, covariance, mean_fabric_mm, relative_before, relative_after) "
    "values ($1, $2, from_micros($3), $4, $5, $6, $7, $8, $9, $10, $11)"};
// Numbers continue from the last one.
constexpr Statement kInsertMeasurements{
    "insert_calibration_measurements",
    "insert into calibration_measurement (calibration_id, number, first_revision, kind, note, ch, "
    "sc, ssc, dc2, dc3, sl_st, w_mm, h_mm, d_mm, beside_mm, length_mm, uncertainty_mm, "
    "relative_spread) "
    "select $1, (select coalesce(max(number), 0) from calibration_measurement "
    "where calibration_id = $1) + m.place, $2, m.kind, m.note, m.ch, m.sc, m.ssc, m.dc2, m.dc3, "
    "m.sl_st, m.w_mm, m.h_mm, m.d_mm, m.beside_mm, m.length_mm, m.uncertainty_mm, "
    "m.relative_spread "
    "from unnest($3::smallint[], $4::text[], $5::double precision[], $6::double precision[], "
    "$7::double precision[], $8::double precision[], $9::double precision[], "
    "$10::double precision[], $11::double precision[], $12::double precision[], "
    "$13::double precision[], $14::double precision[], $15::double precision[], "
    "$16::double precision[], $17::double precision[]) with ordinality "
    "as m (kind, note, ch, sc, ssc, dc2, dc3, sl_st, w_mm, h_mm, d_mm, beside_mm, length_mm, "
    "uncertainty_mm, relative_spread, place)"};
constexpr Statement kLeaveOut{"leave_out_calibration_measurements",
                              "update calibration_measurement set left_out_by = $2 "
                              "where calibration_id = $1 and number = any($3::integer[])"};
constexpr Statement kCountRevision{
    "count_calibration_revision",
    "update calibration set revision_count = $2, change_count = change_count + 1 "
    "where calibration_id = $1"};
constexpr Statement kUpdateCalibrationTitle{
    "update_calibration_title",
    "update calibration set title = $2, change_count = change_count + 1 "
    "where calibration_id = $1"};
constexpr Statement kDelete{"delete_calibration",
                            "delete from calibration where calibration_id = $1"};
constexpr Statement kLoadCalibration{
    "load_calibration",
    "select calibration_id, account_id, title, technique, facing, ends, "
    "weight_class, revision_count, change_count, to_micros(created_at) "
    "from calibration where calibration_id = $1 and account_id = $2"};
constexpr Statement kListCalibrations{
    "list_calibrations",
    "select calibration_id, account_id, title, technique, facing, ends, weight_class, "
    "revision_count, change_count, to_micros(created_at) from calibration where account_id = $1 "
    "and ($2::smallint is null or technique = $2) and ($3::smallint is null or weight_class = $3) "
    "and ($4::bigint is null or (created_at, calibration_id) < (from_micros($4::bigint), $5)) "
    "order by created_at desc, calibration_id desc limit $6"};
constexpr Statement kCountCalibrations{"count_calibrations",
                                       "select count(*) from calibration where account_id = $1"};
constexpr Statement kLoadRevision{
    "load_calibration_revision",
    "select number, to_micros(created_at), note, model_version, measurement_count, path, "
    "covariance, mean_fabric_mm, relative_before, relative_after "
    "from calibration_revision where calibration_id = $1 and number = $2"};
constexpr Statement kListRevisions{
    "list_calibration_revisions",
    "select number, to_micros(created_at), note, model_version, measurement_count "
    "from calibration_revision where calibration_id = $1 and ($2 = 0 or number < $2) "
    "order by number desc limit $3"};
constexpr Statement kLoadMeasurements{
    "load_calibration_measurements",
    "select number, first_revision, kind, note, ch, sc, ssc, dc2, dc3, sl_st, w_mm, h_mm, d_mm, "
    "beside_mm, length_mm, uncertainty_mm, relative_spread from calibration_measurement "
    "where calibration_id = $1 and first_revision <= $2 "
    "and (left_out_by is null or left_out_by > $2) order by number"};

template <typename Enum>
std::optional<int> NumberOf(const std::optional<Enum>& value) {
  return value.has_value() ? std::optional<int>(static_cast<int>(*value)) : std::nullopt;
}

// Reads a record of a calibration.
template <typename Read>
auto ReadOfCalibration(const char* table, const std::string& id, const Read& read) {
  return ReadRecord(
      table, [&] { return ToString(CalibrationName{{id}}); }, read);
}

estimate::CalibrationRecord CalibrationFrom(const pqxx::row& row) {
  return ReadOfCalibration("calibration", row[0].c_str(), [&] {
    estimate::CalibrationRecord calibration;
    calibration.id.value = TextIn(row[0]);
    calibration.owner.value = TextIn(row[1]);
    calibration.title = TextIn(row[2]);
    calibration.scope = {EnumIn<chart::Technique>(row[3]), OptionalEnumIn<chart::Facing>(row[4]),
                         OptionalEnumIn<chart::Ends>(row[5]),
                         IntegerOf(RawIn(row[6], "weight_class"), "weight_class", 0, 7)};
    calibration.revision_count = NumberFrom1(row[7]);
    calibration.change_count = CountIn(row[8]);
    calibration.created_at = MomentIn(row[9], "created_at");
    return calibration;
  });
}

estimate::RevisionRecord RevisionFrom(const pqxx::row& row) {
  estimate::RevisionRecord revision;
  revision.number = NumberFrom1(row[0]);
  revision.created_at = MomentIn(row[1], "created_at");
  revision.note = TextIn(row[2]);
  revision.model_version = CountIn(row[3]);
  revision.calibration.observation_count = CountIn(row[4]);
  return revision;
}

template <typename Numbers>
std::string ArrayOf(const Numbers& numbers) {
  ArrayText text;
  for (const auto number : numbers) text.Add(number);
  return text.Text();
}

template <size_t Count>
std::array<double, Count> NumbersFrom(const pqxx::field& field) {
  const auto read = ArrayIn(field, RealOf);
  RequireSize(read, Count, field);
  std::array<double, Count> numbers = {};
  std::copy(read.begin(), read.end(), numbers.begin());
  return numbers;
}

void InsertRevision(Transaction& transaction, const CalibrationId& id,
                    const estimate::RevisionRecord& revision) {
  const estimate::Calibration& c = revision.calibration;
  const std::array<double, 3> fabric = {c.mean_fabric.w_mm, c.mean_fabric.h_mm, c.mean_fabric.d_mm};
  Run(transaction, kInsertRevision, id.value, revision.number, Micros(revision.created_at),
      revision.note, revision.model_version, c.observation_count,
      ArrayOf(estimate::CoefficientsOf(c.paths)), ArrayOf(c.covariance), ArrayOf(fabric),
      ArrayOf(c.relative_before), ArrayOf(c.relative_after));
}

void InsertMeasurements(Transaction& transaction, const CalibrationId& id, int revision,
                        const std::vector<estimate::Measurement>& measurements) {
  ArrayText kinds;
  ArrayText notes;
  std::array<ArrayText, estimate::kStitchKinds> stitches;
  ArrayText w, h, d, beside, length, uncertainty, spread;
  for (const estimate::Measurement& measurement : measurements) {
    const estimate::CalibrationObservation& o = measurement.observation;
    kinds.Add(static_cast<int>(measurement.kind));
    notes.Add(measurement.note);
    for (size_t kind = 0; kind < stitches.size(); ++kind) stitches[kind].Add(o.stitches[kind]);
    w.Add(o.fabric.w_mm);
    h.Add(o.fabric.h_mm);
    d.Add(o.fabric.d_mm);
    beside.Add(o.beside_mm);
    length.Add(o.length_mm);
    uncertainty.Add(o.uncertainty_mm);
    spread.Add(o.relative_spread);
  }
  Run(transaction, kInsertMeasurements, id.value, revision, kinds.Text(), notes.Text(),
      stitches[0].Text(), stitches[1].Text(), stitches[2].Text(), stitches[3].Text(),
      stitches[4].Text(), stitches[5].Text(), w.Text(), h.Text(), d.Text(), beside.Text(),
      length.Text(), uncertainty.Text(), spread.Text());
}

estimate::KeptMeasurement MeasurementFrom(const pqxx::row& row) {
  estimate::KeptMeasurement kept;
  kept.number = NumberFrom1(row[0]);
  kept.first_revision = NumberFrom1(row[1]);
  kept.measurement.kind = EnumIn<estimate::MeasurementKind>(row[2]);
  kept.measurement.note = TextIn(row[3]);
  estimate::CalibrationObservation& o = kept.measurement.observation;
  constexpr pqxx::row::size_type kFirstStitch = 4;
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    o.stitches[kind] = RealIn(row[kFirstStitch + static_cast<pqxx::row::size_type>(kind)]);
  }
  o.fabric = {RealIn(row[10]), RealIn(row[11]), RealIn(row[12])};
  o.beside_mm = RealIn(row[13]);
  o.length_mm = RealIn(row[14]);
  o.uncertainty_mm = RealIn(row[15]);
  o.relative_spread = RealIn(row[16]);
  return kept;
}

}  // namespace

void InsertCalibration(Transaction& transaction, const estimate::CalibrationRecord& calibration,
                       const estimate::RevisionRecord& revision,
                       const std::vector<estimate::Measurement>& measurements) {
  const estimate::CalibrationScope& scope = calibration.scope;
  Run(transaction, kInsertCalibration, calibration.id.value, calibration.owner.value,
      calibration.title, NumberOf(scope.technique), NumberOf(scope.facing), NumberOf(scope.ends),
      scope.weight_class, Micros(calibration.created_at));
  InsertRevision(transaction, calibration.id, revision);
  InsertMeasurements(transaction, calibration.id, revision.number, measurements);
}

void AppendRevision(Transaction& transaction, const CalibrationId& id,
                    const estimate::RevisionRecord& revision,
                    const estimate::RevisionChange& change) {
  InsertRevision(transaction, id, revision);
  if (!change.added.empty()) InsertMeasurements(transaction, id, revision.number, change.added);
  if (!change.left_out.empty()) {
    Run(transaction, kLeaveOut, id.value, revision.number, ArrayOf(change.left_out));
  }
  Run(transaction, kCountRevision, id.value, revision.number);
}

void UpdateCalibrationTitle(Transaction& transaction, const CalibrationId& id,
                            const std::string& title) {
  Run(transaction, kUpdateCalibrationTitle, id.value, title);
}

void DeleteCalibration(Transaction& transaction, const CalibrationId& id) {
  Run(transaction, kDelete, id.value);
}

std::optional<estimate::CalibrationRecord> LoadCalibration(Transaction& transaction,
                                                           const AccountId& owner,
                                                           const CalibrationId& id) {
  const pqxx::result result = Run(transaction, kLoadCalibration, id.value, owner.value);
  if (result.empty()) return std::nullopt;
  return CalibrationFrom(result.front());
}

std::vector<estimate::CalibrationRecord> ListCalibrations(
    Transaction& transaction, const AccountId& owner, const estimate::CalibrationFilter& filter,
    std::optional<Moment> before, const CalibrationId& before_id, int limit) {
  std::vector<estimate::CalibrationRecord> calibrations;
  const pqxx::result result =
      Run(transaction, kListCalibrations, owner.value, NumberOf(filter.technique),
          filter.weight_class, MicrosOrNull(before), before_id.value, limit);
  for (const auto& row : result) calibrations.push_back(CalibrationFrom(row));
  return calibrations;
}

int CountCalibrations(Transaction& transaction, const AccountId& owner) {
  return Run(transaction, kCountCalibrations, owner.value).front()[0].as<int>();
}

std::optional<estimate::RevisionRecord> LoadRevision(Transaction& transaction,
                                                     const CalibrationId& id, int number) {
  const pqxx::result result = Run(transaction, kLoadRevision, id.value, number);
  if (result.empty()) return std::nullopt;
  const pqxx::row row = result.front();
  return ReadOfCalibration("calibration_revision", id.value, [&] {
    estimate::RevisionRecord revision = RevisionFrom(row);
    estimate::Calibration& c = revision.calibration;
    c.paths = estimate::PathsOf(NumbersFrom<estimate::kPathCoefficients>(row[5]));
    c.covariance = ArrayIn(row[6], RealOf);
    RequireSize(c.covariance, estimate::kCovarianceNumbers, row[6]);
    const auto fabric = NumbersFrom<3>(row[7]);
    c.mean_fabric = {fabric[0], fabric[1], fabric[2]};
    c.relative_before = NumbersFrom<estimate::kStitchKinds>(row[8]);
    c.relative_after = NumbersFrom<estimate::kStitchKinds>(row[9]);
    return revision;
  });
}

std::vector<estimate::RevisionRecord> ListRevisions(Transaction& transaction,
                                                    const CalibrationId& id, int before_number,
                                                    int limit) {
  std::vector<estimate::RevisionRecord> revisions;
  const pqxx::result result = Run(transaction, kListRevisions, id.value, before_number, limit);
  for (const auto& row : result) {
    revisions.push_back(
        ReadOfCalibration("calibration_revision", id.value, [&] { return RevisionFrom(row); }));
  }
  return revisions;
}

std::vector<estimate::KeptMeasurement> LoadMeasurements(Transaction& transaction,
                                                        const CalibrationId& id, int revision) {
  std::vector<estimate::KeptMeasurement> measurements;
  for (const auto& row : Run(transaction, kLoadMeasurements, id.value, revision)) {
    measurements.push_back(ReadOfCalibration("calibration_measurement", id.value,
                                             [&] { return MeasurementFrom(row); }));
  }
  return measurements;
}

}  // namespace rowproof::storage
