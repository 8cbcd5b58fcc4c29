// Rows of kept calibrations, their revisions and measurements.
#include "storage/calibrations.h"

#include <pqxx/pqxx>

#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/estimate/estimate.h"
#include "storage/accounts.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

using estimate::Measurement;
using estimate::MeasurementKind;

// Invented numbers, no two alike, so that a column in another's place shows.
Measurement Measured(double seed, MeasurementKind kind, const std::string& note) {
  Measurement measurement;
  measurement.kind = kind;
  measurement.note = note;
  estimate::CalibrationObservation& o = measurement.observation;
  for (size_t i = 0; i < o.stitches.size(); ++i) {
    o.stitches[i] = 100 * seed + static_cast<double>(i) / 3;
  }
  o.fabric = {5 + seed / 7, 4 + seed / 7, 2 + seed / 7};
  o.beside_mm = 10 / seed;
  o.length_mm = 20'000 / 3.0 * seed;
  o.uncertainty_mm = 30 / seed;
  o.relative_spread = 0.02 * seed;
  return measurement;
}

estimate::RevisionRecord Revision(int number, const std::vector<Measurement>& measurements,
                                  Moment now) {
  estimate::RevisionRecord row;
  row.number = number;
  row.created_at = now;
  row.note = "note 'of' " + std::to_string(number);
  row.model_version = estimate::kModelVersion;
  row.calibration = estimate::Calibrate({}).value();
  row.calibration.observation_count = static_cast<int>(measurements.size());
  row.calibration.covariance[3] = 1 / 3.0 * number;
  return row;
}

class Calibrations : public StorageTest {
 protected:
  Calibrations() {
    AddAccount("ada");
    AddAccount("bea");
  }
  absl::Status InTransaction(const std::function<void(Transaction&)>& work) {
    return Write([&](Transaction& transaction, const Admission&) {
      work(transaction);
      return absl::OkStatus();
    });
  }
  estimate::CalibrationRecord Row(const std::string& id, const std::string& owner = "ada") {
    estimate::CalibrationRecord row;
    row.id = {id};
    row.owner = {owner};
    row.title = "Oat \\ \"my\" hands";
    row.scope = {chart::Technique::kInset, chart::Facing::kPaired, std::nullopt, 4};
    row.created_at = clock_.Now();
    return row;
  }
  void Add(const estimate::CalibrationRecord& row) {
    ASSERT_TRUE(InTransaction([&](Transaction& t) {
                  InsertCalibration(t, row, Revision(1, first_, clock_.Now()), first_);
                }).ok());
  }
  const std::vector<Measurement> first_ = {
      Measured(1, MeasurementKind::kWeighedSwatch, "quotes ' and \" and \\ and , {}"),
      Measured(2, MeasurementKind::kUnravelledSwatch, "")};
};

TEST_F(Calibrations, AreReadBackAsTheyWereWritten) {
  Add(Row("c1"));
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                const auto row = LoadCalibration(t, {"ada"}, {"c1"});
                ASSERT_TRUE(row.has_value());
                EXPECT_EQ(row->title, "Oat \\ \"my\" hands");
                EXPECT_EQ(row->owner.value, "ada");
                EXPECT_EQ(row->scope, Row("c1").scope);
                EXPECT_EQ(row->revision_count, 1);
                EXPECT_EQ(row->change_count, 1);
                EXPECT_EQ(row->created_at, clock_.Now());
                const auto revision = LoadRevision(t, {"c1"}, 1);
                ASSERT_TRUE(revision.has_value());
                EXPECT_EQ(revision->calibration, Revision(1, first_, {}).calibration);
                EXPECT_EQ(revision->note, "note 'of' 1");
                EXPECT_EQ(revision->model_version, estimate::kModelVersion);
                EXPECT_EQ(revision->created_at, clock_.Now());
                const auto kept = LoadMeasurements(t, {"c1"}, 1);
                ASSERT_EQ(kept.size(), 2u);
                for (size_t i = 0; i < kept.size(); ++i) {
                  EXPECT_EQ(kept[i].number, static_cast<int>(i) + 1);
                  EXPECT_EQ(kept[i].first_revision, 1);
                  EXPECT_EQ(kept[i].measurement, first_[i]);
                }
              }).ok());
}

TEST_F(Calibrations, AreNotFoundByAnotherAccount) {
  Add(Row("c1"));
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                EXPECT_FALSE(LoadCalibration(t, {"bea"}, {"c1"}).has_value());
                EXPECT_FALSE(LoadCalibration(t, {"ada"}, {"none"}).has_value());
                EXPECT_TRUE(ListCalibrations(t, {"bea"}, {}, std::nullopt, {}, 9).empty());
                EXPECT_EQ(CountCalibrations(t, {"bea"}), 0);
                EXPECT_EQ(CountCalibrations(t, {"ada"}), 1);
              }).ok());
}

TEST_F(Calibrations, KeepEachRevisionAsItWas) {
  Add(Row("c1"));
  const std::vector<Measurement> added = {Measured(3, MeasurementKind::kWholePiece, "a wrap")};
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                AppendRevision(t, {"c1"}, Revision(2, added, clock_.Now()), {added, {1}, ""});
                AppendRevision(t, {"c1"}, Revision(3, added, clock_.Now()), {{}, {2}, ""});
              }).ok());
  const auto numbers = [](const std::vector<estimate::KeptMeasurement>& kept) {
    std::vector<int> read;
    for (const auto& measurement : kept) read.push_back(measurement.number);
    return read;
  };
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                EXPECT_EQ(numbers(LoadMeasurements(t, {"c1"}, 1)), (std::vector{1, 2}));
                EXPECT_EQ(numbers(LoadMeasurements(t, {"c1"}, 2)), (std::vector{2, 3}));
                EXPECT_EQ(numbers(LoadMeasurements(t, {"c1"}, 3)), (std::vector{3}));
                EXPECT_EQ(LoadMeasurements(t, {"c1"}, 3).front().first_revision, 2);
                const auto row = LoadCalibration(t, {"ada"}, {"c1"}).value();
                EXPECT_EQ(row.revision_count, 3);
                EXPECT_EQ(row.change_count, 3);
                const auto listed = ListRevisions(t, {"c1"}, 0, 2);
                ASSERT_EQ(listed.size(), 2u);
                EXPECT_EQ(listed[0].number, 3);
                EXPECT_EQ(listed[1].number, 2);
                EXPECT_EQ(ListRevisions(t, {"c1"}, 2, 9).size(), 1u);
                EXPECT_EQ(LoadRevision(t, {"c1"}, 1)->calibration,
                          Revision(1, first_, {}).calibration);
                EXPECT_FALSE(LoadRevision(t, {"c1"}, 4).has_value());
              }).ok());
}

TEST_F(Calibrations, AreListedByTechniqueAndClassNewestFirstPageByPage) {
  Add(Row("of0bea", "bea"));
  for (const char* id : {"c1", "c2", "c3", "c4"}) {
    if (std::string(id) == "c3") clock_.Advance(std::chrono::seconds(1));
    estimate::CalibrationRecord row = Row(id);
    if (std::string(id) == "c2") row.scope.technique = chart::Technique::kSpike;
    if (std::string(id) == "c4") row.scope.weight_class = 5;
    Add(row);
  }
  const auto all = [&](const estimate::CalibrationFilter& filter) {
    std::string ids;
    std::optional<Moment> before;
    CalibrationId last;
    while (true) {
      std::vector<estimate::CalibrationRecord> page;
      EXPECT_TRUE(InTransaction([&](Transaction& t) {
                    page = ListCalibrations(t, {"ada"}, filter, before, last, 2);
                  }).ok());
      if (page.empty()) return ids;
      for (const auto& row : page) ids += row.id.value + " ";
      before = page.back().created_at;
      last = page.back().id;
    }
  };
  EXPECT_EQ(all({}), "c4 c3 c2 c1 ");
  EXPECT_EQ(all({chart::Technique::kInset, std::nullopt}), "c4 c3 c1 ");
  EXPECT_EQ(all({std::nullopt, 4}), "c3 c2 c1 ");
  EXPECT_EQ(all({chart::Technique::kSpike, 5}), "");
}

TEST_F(Calibrations, AreRenamedAndDeletedWithAllThatTheyHold) {
  Add(Row("c1"));
  Add(Row("c2"));
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                UpdateCalibrationTitle(t, {"c1"}, "Rye");
                const auto row = LoadCalibration(t, {"ada"}, {"c1"}).value();
                EXPECT_EQ(row.title, "Rye");
                EXPECT_EQ(row.change_count, 2);
                DeleteCalibration(t, {"c1"});
                EXPECT_FALSE(LoadCalibration(t, {"ada"}, {"c1"}).has_value());
              }).ok());
  EXPECT_EQ(Execute("select count(*) from calibration_revision"), "1");
  EXPECT_EQ(Execute("select count(*) from calibration_measurement"), "2");
}

TEST_F(Calibrations, GoWithTheErasedAccount) {
  Add(Row("c1"));
  Add(Row("c2", "bea"));
  ASSERT_TRUE(InTransaction([&](Transaction& t) { EraseAccount(t, {"ada"}, clock_.Now()); }).ok());
  EXPECT_EQ(Execute("select string_agg(calibration_id, ' ') from calibration"), "c2");
  EXPECT_EQ(Execute("select count(*) from calibration_revision"), "1");
  EXPECT_EQ(Execute("select count(*) from calibration_measurement"), "2");
}

}  // namespace
}  // namespace rowproof::storage
