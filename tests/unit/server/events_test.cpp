#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "server/events.hpp"

namespace {

using namespace portwright::server;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

TEST(hub, begins_each_stream_with_hello) {
  Hub hub;
  const auto stream = hub.open({"s", "tab"}, "{\"last\":3}");
  ASSERT_TRUE(stream);
  EXPECT_EQ(stream->take(), "event: hello\ndata: {\"last\":3}\n\n");
  EXPECT_EQ(stream->take(), "");
}

TEST(hub, tells_everybody_what_concerns_the_book) {
  Hub hub;
  const auto one = hub.open({"s", "a"}, "{}"), two = hub.open({"s", "b"}, "{}");
  hub.tell("book", "{\"last\":4}");
  EXPECT_THAT(one->take(), HasSubstr("event: book\ndata: {\"last\":4}\n\n"));
  EXPECT_THAT(two->take(), HasSubstr("event: book"));
}

TEST(hub, tells_a_tab_what_is_its_own) {
  Hub hub;
  const auto own = hub.open({"s", "a"}, "{}"), other_tab = hub.open({"s", "b"}, "{}"),
             other_session = hub.open({"t", "a"}, "{}"), no_tab = hub.open({"s", ""}, "{}");
  hub.tell({"s", "a"}, "job", "{}");
  EXPECT_THAT(own->take(), HasSubstr("event: job"));
  EXPECT_THAT(other_tab->take(), Not(HasSubstr("event: job")));
  EXPECT_THAT(other_session->take(), Not(HasSubstr("event: job")));
  EXPECT_THAT(no_tab->take(), HasSubstr("event: job"));
}

TEST(hub, lets_a_reader_go_that_does_not_read) {
  Hub hub;
  const auto stream = hub.open({"s", ""}, "{}");
  for (std::size_t i = 0; i < Stream::most_events; ++i) hub.tell("book", "{}");
  EXPECT_TRUE(stream->closed());
  EXPECT_EQ(stream->take(), "") << "nothing is kept for it";
  EXPECT_EQ(hub.size(), 0u);
}

TEST(hub, lets_a_reader_go_before_its_queue_holds_too_many_bytes) {
  Hub hub;
  const auto stream = hub.open({"s", ""}, "{}");
  const std::string part(std::size_t{1} << 20U, 'x');
  for (int i = 0; i < 3; ++i) hub.tell("part", part);
  EXPECT_FALSE(stream->closed());
  hub.tell("part", part);
  EXPECT_TRUE(stream->closed());
}

TEST(hub, opens_eight_streams_for_a_session_and_no_more) {
  Hub hub;
  std::vector<std::shared_ptr<Stream>> open;
  for (std::size_t i = 0; i < Hub::most_streams; ++i) {
    open.push_back(hub.open({"s", ""}, "{}"));
    ASSERT_TRUE(open.back());
  }
  EXPECT_FALSE(hub.open({"s", ""}, "{}"));
  EXPECT_TRUE(hub.open({"t", ""}, "{}")) << "another session has its own";
  open.pop_back();
  EXPECT_TRUE(hub.open({"s", ""}, "{}")) << "one that went makes room";
}

TEST(hub, says_goodbye_and_opens_nothing_afterwards) {
  Hub hub;
  const auto stream = hub.open({"s", ""}, "{}");
  hub.close();
  EXPECT_TRUE(stream->closed());
  EXPECT_THAT(stream->take(), HasSubstr("event: bye"));
  EXPECT_FALSE(hub.open({"s", ""}, "{}"));
}

TEST(hub, tells_the_machine_alone_what_is_the_machines) {
  Hub hub;
  const auto machine = hub.open({"key", "a"}, "{}"), phone = hub.open({"device 3", "a", 3}, "{}");
  (void)machine->take();
  (void)phone->take();
  hub.tell_machine("network", "{}");
  EXPECT_THAT(machine->take(), HasSubstr("event: network"));
  EXPECT_EQ(phone->take(), "");
  EXPECT_TRUE(hub.has_device(3));
  EXPECT_FALSE(hub.has_device(4));
}

TEST(hub, closes_the_streams_that_it_is_asked_to_with_a_goodbye) {
  Hub hub;
  const auto machine = hub.open({"key", "a"}, "{}"), phone = hub.open({"device 3", "a", 3}, "{}");
  hub.close_where([](const Listener& who) { return who.device == 3; });
  EXPECT_TRUE(phone->closed());
  EXPECT_THAT(phone->take(), HasSubstr("event: bye"));
  EXPECT_FALSE(machine->closed());
  EXPECT_FALSE(hub.has_device(3));
}

TEST(hub, pings_by_a_comment) {
  Hub hub;
  const auto stream = hub.open({"s", ""}, "{}");
  (void)stream->take();
  hub.ping();
  EXPECT_THAT(stream->take(), StartsWith(": "));
}

TEST(stream, wakes_its_reader_when_there_is_something_and_when_it_ends) {
  Stream stream({"s", ""});
  int woken = 0;
  stream.on_wake([&] { ++woken; });
  stream.put("x");
  EXPECT_EQ(woken, 1);
  stream.close();
  EXPECT_EQ(woken, 2);
  stream.put("y");
  EXPECT_EQ(stream.take(), "x") << "what waited may still be taken, nothing comes after the end";
}

}  // namespace
