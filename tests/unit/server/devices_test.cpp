#include "server/network/devices.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>

#include "unit/server/app.hpp"

namespace {

using namespace serving;
using ::testing::HasSubstr;
using ::testing::Not;

std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

struct Shop {
  Folder folder;
  std::int64_t now = 1'800'000'000;
  std::string path = folder.at("data/book.portwright.devices");
  Devices devices{path, [this] { return now; }};
  Devices::Added add(const std::string& name = "phone") {
    auto added = devices.add(name, "192.168.1.23");
    EXPECT_TRUE(added) << (added ? "" : added.error().message);
    return added ? *added : Devices::Added{};
  }
};

TEST(devices, know_each_other_apart_by_their_cookies) {
  Shop shop;
  const auto phone = shop.add("phone"), tablet = shop.add("tablet");
  ASSERT_TRUE(shop.devices.of(phone.cookie));
  EXPECT_EQ(shop.devices.of(phone.cookie)->name, "phone");
  EXPECT_EQ(shop.devices.of(tablet.cookie)->number, 2);
  for (const std::string& wrong : {std::string(), std::string(64, '0'), phone.cookie.substr(1), phone.cookie + '0'})
    EXPECT_FALSE(shop.devices.of(wrong));
}

TEST(devices, are_kept_over_a_restart_as_hashes_for_their_owner_alone) {
  Shop shop;
  const auto phone = shop.add();
  struct stat info {};
  ASSERT_EQ(::stat(shop.path.c_str(), &info), 0);
  EXPECT_EQ(info.st_mode & 0777, 0600U);
  EXPECT_THAT(text_of(shop.path), Not(HasSubstr(phone.cookie)));
  Devices later(shop.path, [&] { return shop.now; });
  ASSERT_TRUE(later.of(phone.cookie));
  EXPECT_EQ(later.of(phone.cookie)->author(), "phone (device 1)");
}

TEST(devices, come_in_no_more_once_they_are_revoked_here_or_by_another_program) {
  Shop shop;
  Devices other(shop.path, [&] { return shop.now; });
  const auto phone = shop.add(), tablet = shop.add("tablet");
  ASSERT_TRUE(other.of(phone.cookie));
  ASSERT_TRUE(shop.devices.revoke(phone.device.number));
  EXPECT_FALSE(shop.devices.of(phone.cookie));
  EXPECT_FALSE(other.of(phone.cookie));
  EXPECT_FALSE(other.is_known(phone.device.number));
  EXPECT_TRUE(other.of(tablet.cookie));
  EXPECT_EQ(shop.devices.revoke(phone.device.number).error().code, base::ErrorCode::not_found);
}

TEST(devices, never_get_a_number_that_was_anothers) {
  Shop shop;
  const auto first = shop.add();
  ASSERT_TRUE(shop.devices.revoke(first.device.number));
  EXPECT_NE(shop.add().device.author(), first.device.author());
}

TEST(devices, are_sixteen_at_most) {
  Shop shop;
  for (std::size_t i = 0; i < Devices::most; ++i) (void)shop.add();
  const auto more = shop.devices.add("one more", "192.168.1.24");
  ASSERT_FALSE(more);
  EXPECT_EQ(more.error().code, base::ErrorCode::out_of_range);
  ASSERT_TRUE(shop.devices.revoke(1));
  EXPECT_TRUE(shop.devices.add("one more", "192.168.1.24"));
}

TEST(devices, are_forgotten_when_nobody_saw_them_for_ninety_days) {
  Shop shop;
  const auto phone = shop.add();
  shop.now += Devices::forgotten_after;
  EXPECT_TRUE(shop.devices.of(phone.cookie));
  shop.devices.saw(phone.device.number, "192.168.1.23");
  shop.now += Devices::forgotten_after;
  EXPECT_TRUE(shop.devices.of(phone.cookie)) << "from when it was seen last";
  shop.now += 1;
  EXPECT_FALSE(shop.devices.of(phone.cookie));
  EXPECT_TRUE(shop.devices.list().empty());
}

TEST(devices, are_seen_where_they_were_last_and_written_down_now_and_then) {
  Shop shop;
  const auto phone = shop.add();
  shop.devices.saw(1, "192.168.1.77");
  EXPECT_EQ(shop.devices.list().front().from, "192.168.1.77");
  const std::string kept = text_of(shop.path);
  EXPECT_THAT(kept, HasSubstr("192.168.1.77"));
  shop.now += 300;
  shop.devices.saw(1, "192.168.1.77");
  EXPECT_EQ(text_of(shop.path), kept) << "not at every request";
  shop.now += 300;
  shop.devices.saw(1, "192.168.1.77");
  EXPECT_NE(text_of(shop.path), kept);
}

TEST(devices, need_a_name) {
  Shop shop;
  for (const std::string& name :
       {std::string(), std::string("   "), std::string("a\nb"), std::string("a\x7f"), std::string(41, 'x')}) {
    const auto added = shop.devices.add(name, "192.168.1.23");
    ASSERT_FALSE(added) << name;
    EXPECT_EQ(added.error().path, "name");
  }
  EXPECT_EQ(shop.add("  phone at the vise ").device.name, "phone at the vise");
  std::string forty;
  for (int i = 0; i < 40; ++i) forty += "\u00e9";
  EXPECT_EQ(shop.add(forty).device.name, forty);
}

TEST(devices, let_nobody_in_from_a_list_that_cannot_be_read_and_leave_it_as_it_is) {
  Shop shop;
  const auto phone = shop.add();
  for (const std::string& spoilt :
       {std::string("{"), std::string("[]"), std::string(), text_of(shop.path) + 'x',
        std::string("{\"format\": \"portwright.devices/2\", \"last\": 1, \"devices\": []}")}) {
    std::ofstream(shop.path) << spoilt;
    Devices later(shop.path, [&] { return shop.now; });
    EXPECT_FALSE(later.of(phone.cookie)) << spoilt;
    EXPECT_THAT(later.trouble(), HasSubstr(shop.path));
    EXPECT_FALSE(later.add("phone", "192.168.1.23"));
    EXPECT_EQ(text_of(shop.path), spoilt);
  }
}

TEST(devices, that_are_revoked_are_shut_out_also_when_the_disk_refuses) {
  Shop shop;
  const auto phone = shop.add();
  fs::remove(shop.path);
  fs::create_directory(shop.path);  // no file can be written in its place
  const Devices::Added kept = phone;
  EXPECT_FALSE(shop.devices.revoke(kept.device.number));
  EXPECT_FALSE(shop.devices.of(kept.cookie));
}

}  // namespace
