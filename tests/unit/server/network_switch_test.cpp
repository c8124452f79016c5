#include "server/network/network_switch.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using namespace portwright;
using namespace portwright::server;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const OwnAddress shop{"wlan0", "192.168.1.5", 24}, shop_later{"wlan0", "192.168.1.9", 24};
const OwnAddress cable{"eth0", "10.0.0.2", 8}, cafe{"wlan0", "192.168.43.5", 24};

struct Bench {
  std::int64_t now = 100;
  std::vector<OwnAddress> here{shop, cable};
  NetworkSwitch network{[this] { return now; }, [this] { return here; }};
};

TEST(network, is_off_until_it_is_switched_on) {
  Bench bench;
  EXPECT_FALSE(bench.network.is_on());
  EXPECT_THAT(bench.network.look(), IsEmpty());
  ASSERT_TRUE(bench.network.on());
  EXPECT_THAT(bench.network.look(), ElementsAre(shop, cable));
  bench.network.off();
  EXPECT_THAT(bench.network.look(), IsEmpty());
  EXPECT_EQ(bench.network.why_off(), "");
}

TEST(network, goes_off_after_twelve_hours) {
  Bench bench;
  ASSERT_TRUE(bench.network.on());
  bench.now += std::int64_t{12} * 3600 - 1;
  EXPECT_THAT(bench.network.look(), ElementsAre(shop, cable));
  EXPECT_EQ(bench.network.seconds_left(), 1);
  bench.now += 1;
  EXPECT_FALSE(bench.network.is_on()) << "also before anybody looked";
  EXPECT_THAT(bench.network.look(), IsEmpty());
  EXPECT_THAT(bench.network.why_off(), HasSubstr("twelve hours"));
  ASSERT_TRUE(bench.network.on());
  EXPECT_EQ(bench.network.seconds_left(), NetworkSwitch::lasts);
  EXPECT_EQ(bench.network.why_off(), "");
}

TEST(network, is_not_switched_on_where_there_is_none) {
  Bench bench;
  bench.here.clear();
  const auto on = bench.network.on();
  ASSERT_FALSE(on);
  EXPECT_EQ(on.error().code, base::ErrorCode::not_found);
  EXPECT_FALSE(bench.network.is_on());
}

TEST(network, follows_another_address_in_the_same_network) {
  Bench bench;
  ASSERT_TRUE(bench.network.on());
  bench.here = {shop_later};
  EXPECT_THAT(bench.network.look(), ElementsAre(shop_later));
}

TEST(network, does_not_follow_into_another_network) {
  Bench bench;
  bench.here = {shop};
  ASSERT_TRUE(bench.network.on());
  bench.here = {cafe};
  EXPECT_THAT(bench.network.look(), IsEmpty());
  EXPECT_TRUE(bench.network.is_on()) << "a moment without the network ends nothing";
  bench.here = {cafe, shop};
  EXPECT_THAT(bench.network.look(), ElementsAre(shop));
  const OwnAddress elsewhere{"usb0", shop.address, shop.prefix};
  bench.here = {elsewhere};
  EXPECT_THAT(bench.network.look(), IsEmpty()) << "the same numbers at another interface are another network";
}

TEST(network, goes_off_when_its_network_is_gone_for_two_minutes) {
  Bench bench;
  ASSERT_TRUE(bench.network.on());
  bench.here = {cafe};
  bench.now += 119;
  (void)bench.network.look();
  EXPECT_TRUE(bench.network.is_on());
  bench.now += 1;
  (void)bench.network.look();
  EXPECT_FALSE(bench.network.is_on());
  EXPECT_THAT(bench.network.why_off(), HasSubstr("is gone"));
  bench.here = {shop};
  EXPECT_THAT(bench.network.look(), IsEmpty()) << "it stays off";
}

TEST(addresses, of_a_network_are_told_by_its_leading_bits) {
  EXPECT_EQ(network_of("192.168.1.5", 24), "192.168.1.0/24");
  EXPECT_EQ(network_of("10.1.2.3", 8), "10.0.0.0/8");
  EXPECT_EQ(network_of("172.16.5.200", 20), "172.16.0.0/20");
  EXPECT_EQ(network_of("192.168.1.5", 0), "0.0.0.0/0");
  for (const char* none : {"", "x", "::1", "192.168.1", "192.168.1.256", "192.168.1.5 ", "fe80::1"})
    EXPECT_EQ(network_of(none, 24), "") << none;
}

TEST(addresses, have_neighbours_in_their_own_network_alone) {
  EXPECT_TRUE(is_neighbour(shop, "192.168.1.23"));
  for (const char* other : {"192.168.2.23", "10.0.0.2", "8.8.8.8", "127.0.0.1", "", "::ffff:192.168.1.23", "x"})
    EXPECT_FALSE(is_neighbour(shop, other)) << other;
}

TEST(addresses, of_a_workshop_are_those_that_a_phone_can_reach) {
  EXPECT_TRUE(is_of_a_workshop(shop));
  EXPECT_TRUE(is_of_a_workshop(cable));
  EXPECT_TRUE(is_of_a_workshop({"eth0", "172.20.10.2", 28}));
  for (const OwnAddress& own : std::vector<OwnAddress>{{"lo", "127.0.0.1", 8},
                                                       {"lo", "127.0.1.1", 24},
                                                       {"eth0", "169.254.7.8", 16},
                                                       {"tun0", "10.8.0.6", 32},
                                                       {"ppp0", "10.64.64.64", 31},
                                                       {"eth0", "192.168.1.5", 0},
                                                       {"eth0", "fe80::1", 64},
                                                       {"eth0", "", 24}})
    EXPECT_FALSE(is_of_a_workshop(own)) << own.address << '/' << own.prefix;
}

TEST(addresses, begin_with_the_interface_of_the_usual_way_out) {
  EXPECT_EQ(usual_interface("Iface\tDestination\tGateway\n"
                            "docker0\t000011AC\t00000000\t0001\n"
                            "wlan0\t00000000\t0101A8C0\t0003\n"
                            "eth0\t00000000\t01000A0A\t0003\n"),
            "wlan0");
  EXPECT_EQ(usual_interface("Iface\tDestination\n"), "");
  EXPECT_EQ(usual_interface(""), "");
}

TEST(addresses, of_this_machine_are_never_loopback) {
  for (const OwnAddress& own : own_addresses()) {
    EXPECT_TRUE(is_of_a_workshop(own)) << own.address;
    EXPECT_FALSE(own.interface.empty());
  }
}

}  // namespace
