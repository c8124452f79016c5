#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <thread>

#include "server/jobs.hpp"

namespace {

using namespace portwright;
using namespace portwright::server;
using ::testing::HasSubstr;
using namespace std::chrono_literals;

const Listener tab{"s", "tab"};

/// Waits for a condition, five seconds at most.
template <class F>
bool soon(F&& holds) {
  for (int i = 0; i < 500; ++i) {
    if (holds()) return true;
    std::this_thread::sleep_for(10ms);
  }
  return false;
}

std::string state_of(const Jobs& jobs, const std::string& id) {
  const auto state = jobs.state("s", id);
  return state ? state->state : "gone";
}

TEST(jobs, tell_parts_and_the_answer_to_the_tab_that_asked) {
  Hub hub;
  const auto stream = hub.open(tab, "{}");
  Jobs jobs(hub);
  const std::string id = jobs.start(tab, "curve", [](JobPort& port) -> base::ResultAll<std::string> {
    (void)port.progress(0.5, "settling");
    port.part("{\n  \"points\": 1\n}\n");
    return "{\n  \"points\": 2\n}\n";
  });
  ASSERT_TRUE(soon([&] { return state_of(jobs, id) == "done"; }));
  std::string told;
  ASSERT_TRUE(soon([&] { return (told += stream->take()).find("event: done") != std::string::npos; }));
  EXPECT_THAT(told, HasSubstr("event: part\ndata: {\"job\":\"" + id + "\",\"answer\":{\"points\": 1}}\n\n"));
  EXPECT_THAT(told, HasSubstr("event: done\ndata: {\"job\":\"" + id + "\",\"answer\":{\"points\": 2}}\n\n"));
  EXPECT_THAT(told, HasSubstr("settling"));
}

TEST(jobs, tell_what_went_wrong_as_a_problem) {
  Hub hub;
  const auto stream = hub.open(tab, "{}");
  Jobs jobs(hub);
  const std::string failed = jobs.start(tab, "curve", [](JobPort&) -> base::ResultAll<std::string> {
    return tl::unexpected(base::Errors{{base::ErrorCode::impossible, "No engine.", "", "", {}}});
  });
  const std::string broken =
      jobs.start(tab, "traces", [](JobPort&) -> base::ResultAll<std::string> { throw std::logic_error("oh"); });
  ASSERT_TRUE(soon([&] { return state_of(jobs, failed) == "failed" && state_of(jobs, broken) == "failed"; }));
  std::string told;
  ASSERT_TRUE(soon([&] { return (told += stream->take()).find("oh") != std::string::npos; }));
  EXPECT_THAT(told, HasSubstr("\"status\": 422"));
  EXPECT_THAT(told, HasSubstr("\"status\": 500"));
}

/// A job that runs until it is told to stop.
Job endless(std::atomic<int>& running) {
  return [&running](JobPort& port) -> base::ResultAll<std::string> {
    ++running;
    while (!port.progress(0.1, "turning")) std::this_thread::sleep_for(1ms);
    --running;
    return "{}";
  };
}

TEST(jobs, stop_when_they_are_told_to) {
  Hub hub;
  std::atomic<int> running = 0;  // outlives the jobs that count in it
  Jobs jobs(hub);
  const std::string id = jobs.start(tab, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  EXPECT_FALSE(jobs.stop("other", id)) << "only its own session stops it";
  EXPECT_TRUE(jobs.stop("s", id));
  EXPECT_TRUE(soon([&] { return state_of(jobs, id) == "stopped"; }));
  EXPECT_EQ(running, 0);
  EXPECT_FALSE(jobs.stop("s", id));
}

TEST(jobs, the_newest_of_a_tab_and_name_takes_the_place_of_the_older) {
  Hub hub;
  std::atomic<int> running = 0;  // outlives the jobs that count in it
  Jobs jobs(hub);
  const std::string first = jobs.start(tab, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  const std::string waiting = jobs.start(tab, "curve", endless(running));
  const std::string newest = jobs.start(tab, "curve", endless(running));
  EXPECT_TRUE(soon([&] { return state_of(jobs, first) == "stopped" && state_of(jobs, newest) == "running"; }));
  EXPECT_EQ(state_of(jobs, waiting), "stopped");
}

TEST(jobs, of_another_tab_or_name_wait_for_their_turn) {
  Hub hub;
  std::atomic<int> running = 0;  // outlives the jobs that count in it
  Jobs jobs(hub);
  const std::string first = jobs.start(tab, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  const std::string traces = jobs.start(tab, "traces", endless(running));
  const std::string other = jobs.start({"s", "other"}, "curve", endless(running));
  std::this_thread::sleep_for(30ms);
  EXPECT_EQ(state_of(jobs, first), "running");
  EXPECT_EQ(state_of(jobs, traces), "waiting");
  EXPECT_EQ(state_of(jobs, other), "waiting");
  EXPECT_EQ(jobs.running(tab).size(), 2u);
  EXPECT_EQ(jobs.running({"s", ""}).size(), 3u);
  EXPECT_EQ(jobs.running({"t", ""}).size(), 0u);
}

TEST(jobs, of_a_tab_that_is_gone_make_room_for_the_next_but_go_on_while_nobody_waits) {
  Hub hub;
  std::atomic<int> running = 0;
  Jobs jobs(hub);
  auto gone = hub.open(tab, "{}");
  const auto stays = hub.open({"s", "other"}, "{}");
  const std::string left = jobs.start(tab, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  gone->close();
  gone.reset();
  std::this_thread::sleep_for(3500ms);
  EXPECT_EQ(state_of(jobs, left), "running") << "nobody waits";
  const std::string next = jobs.start({"s", "other"}, "curve", endless(running));
  EXPECT_TRUE(soon([&] { return state_of(jobs, left) == "stopped" && state_of(jobs, next) == "running"; }));
  EXPECT_EQ(state_of(jobs, next), "running");
}

TEST(jobs, stand_aside_while_an_answer_is_worked_out) {
  Hub hub;
  std::atomic<int> steps = 0;  // outlives the jobs that count in it
  Jobs jobs(hub);
  const std::string id = jobs.start(tab, "curve", [&](JobPort& port) -> base::ResultAll<std::string> {
    while (!port.progress(0.1, "turning")) ++steps;
    return "{}";
  });
  ASSERT_TRUE(soon([&] { return steps > 0; }));
  {
    const Jobs::Quiet quiet(jobs);
    std::this_thread::sleep_for(20ms);
    const int then = steps;
    std::this_thread::sleep_for(100ms);
    EXPECT_LE(steps - then, 1);
  }
  const int after = steps;
  EXPECT_TRUE(soon([&] { return steps > after; }));
  jobs.stop("s", id);
}

TEST(jobs, end_with_the_server_even_while_they_run) {
  Hub hub;
  std::atomic<int> running = 0;
  {
    Jobs jobs(hub);
    (void)jobs.start(tab, "curve", endless(running));
    ASSERT_TRUE(soon([&] { return running == 1; }));
  }
  EXPECT_EQ(running, 0);
}

TEST(jobs, that_nobody_started_are_not_found) {
  Hub hub;
  const Jobs jobs(hub);
  EXPECT_EQ(jobs.state("s", "j1").error().code, base::ErrorCode::not_found);
}

TEST(jobs, wait_eight_at_a_time_for_one_session_and_the_oldest_goes) {
  Hub hub;
  std::atomic<int> running = 0;
  Jobs jobs(hub);
  (void)jobs.start({"other", "x"}, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  std::vector<std::string> ids;
  for (std::size_t i = 0; i <= Jobs::most_waiting; ++i)
    ids.push_back(jobs.start({"s", "tab" + std::to_string(i)}, "curve", endless(running)));
  EXPECT_EQ(state_of(jobs, ids.front()), "stopped");
  for (std::size_t i = 1; i < ids.size(); ++i) EXPECT_EQ(state_of(jobs, ids[i]), "waiting") << i;
}

TEST(jobs, of_the_machine_come_before_those_of_devices) {
  Hub hub;
  std::atomic<int> running = 0;
  Jobs jobs(hub);
  const std::string first = jobs.start({"device 3", "a", 3}, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  const std::string phones = jobs.start({"device 3", "b", 3}, "curve", endless(running));
  const std::string mine = jobs.start({"s", "a"}, "curve", endless(running));
  jobs.stop("device 3", first);
  ASSERT_TRUE(soon([&] { return state_of(jobs, mine) == "running"; }));
  EXPECT_EQ(jobs.state("device 3", phones)->state, "waiting");
}

TEST(jobs, stop_where_their_owner_may_not_stay) {
  Hub hub;
  std::atomic<int> running = 0;
  Jobs jobs(hub);
  const std::string phones = jobs.start({"device 3", "a", 3}, "curve", endless(running));
  ASSERT_TRUE(soon([&] { return running == 1; }));
  const std::string mine = jobs.start({"s", "a"}, "curve", endless(running));
  jobs.stop_where([](const Listener& who) { return who.device == 3; });
  ASSERT_TRUE(soon([&] { return jobs.state("device 3", phones)->state == "stopped"; }));
  EXPECT_NE(state_of(jobs, mine), "stopped");
}

}  // namespace
