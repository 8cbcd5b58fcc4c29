#include <stdexcept>

#include "tests/bench/api_client.h"
#include "tests/bench/bare_insert.h"
#include "tests/bench/sample_charts.h"
#include "tests/bench/service_figures.h"

namespace rowproof::bench {
namespace {

constexpr int kWarmUp = 20;
constexpr int kRuns = 900;

}  // namespace

Figure MeasureSubmit(const LiveServer& server) {
  ApiClient client(server.address(), server.designer_token());
  v1::CreatePatternRequest pattern;
  pattern.set_title("Invented blanket");
  v1::CreateVersionRequest request;
  request.set_parent(client.CreatePattern(pattern).name());
  *request.mutable_content() = ContentOf(RandomDesign(400, 300, 4));
  request.set_note("first");
  Analyze(server.connection());
  BareInsert bare(server.connection());
  std::vector<double> submits;
  std::vector<double> healths;
  std::vector<double> inserts;
  for (int run = 0; run < kWarmUp + kRuns; ++run) {
    request.set_request_id(NewRequestId());
    const std::string bytes = request.SerializeAsString();
    v1::Version version;
    const double submit = Microseconds([&] { version = client.CreateVersion(request); });
    const double health = Microseconds([&] { client.CheckHealth(); });
    const double insert = Microseconds([&] { bare.Insert(bytes); });
    if (version.state() != v1::VERSION_STATE_WORKABLE || version.number() != run + 1) {
      throw std::runtime_error("the submitted version is not what was sent");
    }
    if (run < kWarmUp) continue;
    submits.push_back(submit);
    healths.push_back(health);
    inserts.push_back(insert);
  }
  return {"submit-300x400", Median(submits), "us", Median(healths) + Median(inserts),
          "at most 2.5, aim 1.6"};
}

}  // namespace rowproof::bench
