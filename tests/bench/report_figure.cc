#include <atomic>
#include <barrier>
#include <chrono>
#include <exception>
#include <functional>
#include <mutex>
#include <stdexcept>
#include <thread>

#include "tests/bench/api_client.h"
#include "tests/bench/bare_insert.h"
#include "tests/bench/sample_charts.h"
#include "tests/bench/service_figures.h"

namespace rowproof::bench {
namespace {

constexpr int kClients = 16;
constexpr int kRounds = 9;
constexpr std::chrono::milliseconds kRound{1000};
constexpr std::chrono::milliseconds kWarmUp{300};
constexpr int kRows = 80;
constexpr int kStitches = 60;

// Does one thing, each time it is called; throws where that failed.
using Client = std::function<void()>;

// Calls a second while all clients work at once for `duration`.
double Rate(const std::vector<Client>& clients, std::chrono::milliseconds duration) {
  std::atomic<bool> ending = false;
  std::atomic<int64_t> done = 0;
  std::mutex mutex;
  std::exception_ptr failure;
  std::barrier start(static_cast<std::ptrdiff_t>(clients.size()) + 1);
  std::vector<std::thread> threads;
  for (const Client& client : clients) {
    threads.emplace_back([&] {
      start.arrive_and_wait();
      try {
        while (!ending) {
          client();
          ++done;
        }
      } catch (...) {
        const std::lock_guard lock(mutex);
        failure = std::current_exception();
      }
    });
  }
  start.arrive_and_wait();
  const double elapsed_us = Microseconds([&] {
    std::this_thread::sleep_for(duration);
    ending = true;
    for (auto& thread : threads) thread.join();
  });
  if (failure != nullptr) std::rethrow_exception(failure);
  return static_cast<double>(done) / elapsed_us * 1e6;
}

// A whole report: gauge, yarn of both colours, sizes, time, one erratum.
v1::ReportContent SampleReport(const v1::SizeEstimate& expected) {
  constexpr double kMetre = 1000;
  v1::ReportContent report;
  report.set_worked_from(v1::WORKED_FROM_BOTH);
  report.set_hand(v1::HAND_RIGHT);
  for (const auto& yarn : expected.yarns()) {
    auto* use = report.add_yarn();
    use->set_role(yarn.role());
    use->set_length_m(yarn.length_mm() / kMetre * 1.05);
  }
  auto* gauge = report.add_gauge_before();
  gauge->set_stitches(14);
  gauge->set_rows(16);
  report.set_width_before_mm(expected.before_blocking().width_mm());
  report.set_height_before_mm(expected.before_blocking().height_mm());
  report.set_minutes(expected.working_time_minutes());
  report.set_last_row(kRows);
  auto* erratum = report.add_errata();
  erratum->set_row(7);
  erratum->set_kind(v1::ERRATUM_KIND_COUNT);
  erratum->set_seen_in(v1::SEEN_IN_TEXT);
  erratum->set_was("59 sts");
  erratum->set_should_be("60 sts");
  report.set_remarks("Worked in the evenings (invented).");
  return report;
}

// A pattern with one version, its calls, and a tester's report ready for each of their seats.
class Setting {
 public:
  explicit Setting(const LiveServer& server)
      : server_(server), designer_(server.address(), server.designer_token()) {
    v1::CreatePatternRequest pattern;
    pattern.set_title("Invented cushion");
    pattern_ = designer_.CreatePattern(pattern).name();
    v1::CreateVersionRequest version;
    version.set_parent(pattern_);
    *version.mutable_content() = ContentOf(MotifDesign(kRows, kStitches));
    version_ = designer_.CreateVersion(version).name();
    v1::EstimateVersionRequest estimate;
    estimate.set_name(version_);
    report_ = SampleReport(designer_.EstimateVersion(estimate).sizes(0));
  }

  // An open call with so many seats, each a tester who sends the report at every call.
  std::vector<Client> TestersOfANewCall(int seats) {
    v1::CreateTestCallRequest request;
    request.set_parent(pattern_);
    request.set_version(version_);
    request.mutable_settings()->set_title("Testers wanted (invented)");
    auto* size = request.mutable_settings()->add_sizes();
    size->set_size("one size");
    size->set_seat_count(seats);
    size->set_required_count(1);
    const std::string call = designer_.CreateTestCall(request).name();
    v1::OpenTestCallRequest open;
    open.set_name(call);
    designer_.OpenTestCall(open);
    std::vector<Client> testers;
    for (int seat = 0; seat < seats; ++seat) testers.push_back(NewTester(call));
    return testers;
  }

  const v1::ReportContent& report() const { return report_; }

 private:
  Client NewTester(const std::string& call) {
    v1::CreateSeatRequest offer;
    offer.set_parent(call);
    offer.set_size("one size");
    v1::TakeSeatRequest take;
    take.set_invitation(designer_.CreateSeat(offer).invitation());
    take.set_display_name("Uwe Untrue");
    // Nobody yet: the seat makes the tester's account.
    const v1::TakeSeatResponse taken = ApiClient(server_.address(), "").TakeSeat(take);
    v1::CreateReportRequest request;
    request.set_parent(taken.seat().name());
    *request.mutable_content() = report_;
    auto tester = std::make_shared<ApiClient>(server_.address(), taken.secret());
    return [tester, request] { tester->CreateReport(request); };
  }

  const LiveServer& server_;
  ApiClient designer_;
  std::string pattern_;
  std::string version_;
  v1::ReportContent report_;
};

std::vector<Client> BareClients(const std::string& address, const std::string& bytes) {
  std::vector<Client> clients;
  for (int i = 0; i < kClients; ++i) {
    clients.push_back([channel = OwnChannel(address), bytes] { CallBareInsert(*channel, bytes); });
  }
  return clients;
}

}  // namespace

std::vector<Figure> MeasureReports(const LiveServer& server, const std::string& self) {
  Setting setting(server);
  std::vector<Client> apart;
  for (int call = 0; call < kClients; ++call) {
    for (auto& tester : setting.TestersOfANewCall(1)) apart.push_back(std::move(tester));
  }
  const std::vector<Client> together = setting.TestersOfANewCall(kClients);
  Analyze(server.connection());
  const std::string address_file = server.folder() + "/bare-address";
  Program bare_program({self, "serve-bare-insert", server.connection(), address_file},
                       server.folder() + "/bare.log");
  const std::vector<Client> bare =
      BareClients(bare_program.AddressFrom(address_file), setting.report().SerializeAsString());
  for (const auto& clients : {apart, together, bare}) Rate(clients, kWarmUp);
  std::vector<double> apart_rates;
  std::vector<double> together_rates;
  std::vector<double> bare_rates;
  for (int round = 0; round < kRounds; ++round) {
    bare_rates.push_back(Rate(bare, kRound));
    apart_rates.push_back(Rate(apart, kRound));
    together_rates.push_back(Rate(together, kRound));
  }
  const double floor = Median(bare_rates);
  return {{"report-16-clients", Median(apart_rates), "1/s", floor, "at least 0.35, aim 0.6"},
          {"report-16-clients-one-call", Median(together_rates), "1/s", floor, ""}};
}

}  // namespace rowproof::bench
