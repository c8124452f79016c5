#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>

#include "unit/picture/pictures.hpp"

namespace {

using namespace picture_test;
using base::ErrorCode;
using picture::read_picture;
using ::testing::HasSubstr;

/// How far two pictures of one size are apart on the mean.
double apart(const Picture& a, const Picture& b) {
  if (a.width != b.width || a.height != b.height) return 1000.0;
  double sum = 0.0;
  for (std::size_t i = 0; i < a.rgb.size(); ++i) sum += std::abs(int{a.rgb[i]} - int{b.rgb[i]});
  return sum / static_cast<double>(a.rgb.size());
}

TEST(read_picture, takes_a_jpeg_and_a_png_by_what_is_in_them) {
  const Picture whole = scene(61, 40);
  EXPECT_LT(apart(read_picture(jpeg(whole)).value(), whole), 2.0);
  EXPECT_EQ(read_picture(png(whole)).value(), whole);
  EXPECT_EQ(read_picture(png(whole, true)).value(), whole) << "interlaced";
  EXPECT_EQ(picture::head_of(png(whole)).value(), (picture::Head{picture::Kind::png, 61, 40}));
  for (const char* other : {"", "GIF89a", "\xff\xd8", "%PDF-1.4", "<svg/>"})
    EXPECT_EQ(read_picture(other).error().code, ErrorCode::unreadable) << other;
  EXPECT_THAT(read_picture(std::string("\0\0\0\x18", 4) + "ftypheic" + std::string(20, '\0')).error().message,
              HasSubstr("HEIC"));
}

TEST(read_picture, turns_all_eight_ways_upright_and_says_when_it_was_taken) {
  const Picture upright = scene(48, 32);
  for (const bool little : {false, true})
    for (int orientation = 1; orientation <= 8; ++orientation) {
      // What the camera stores is what its note turns into the upright one.
      const int back = orientation == 6 ? 8 : orientation == 8 ? 6 : orientation;
      const std::string file =
          with_note(jpeg(picture::turned(upright, back), 95), note(orientation, "2026:05:03 14:02:11", little));
      EXPECT_EQ(picture::orientation_of(file), orientation);
      EXPECT_EQ(picture::taken_of(file), "2026:05:03 14:02:11");
      EXPECT_LT(apart(read_picture(file).value(), upright), 4.0) << orientation;
    }
  EXPECT_EQ(picture::orientation_of(jpeg(upright)), 1);
  EXPECT_EQ(picture::taken_of(jpeg(upright)), "");
}

TEST(read_picture, believes_no_note_that_does_not_hold) {
  const std::string file = jpeg(scene(8, 8));
  for (const int orientation : {0, 9, 255}) EXPECT_EQ(picture::orientation_of(with_note(file, note(orientation))), 1);
  for (const char* moment :
       {"2026:13:03 14:02:11", "2026:05:03 24:02:11", "<script>alert(1)", "0000:00:00 00:00:00", "2026-05-03 14:02:11"})
    EXPECT_EQ(picture::taken_of(with_note(file, note(6, std::string(moment).substr(0, 19)))), "") << moment;
  const std::string whole = note(6);
  for (std::size_t size = 0; size <= whole.size(); ++size) {
    const std::string cut = with_note(file, whole.substr(0, size));
    const int held = picture::orientation_of(cut);
    EXPECT_TRUE(held == 1 || held == 6);
    const std::string taken = picture::taken_of(cut);
    EXPECT_TRUE(taken.empty() || taken == "2026:05:03 14:02:11");
    EXPECT_TRUE(read_picture(cut)) << "the pixels do not hang on it";
  }
  std::mt19937 chance(7);
  for (int i = 0; i < 3000; ++i) {
    std::string spoilt = whole;
    for (int k = 0; k < 3; ++k) spoilt[chance() % spoilt.size()] = static_cast<char>(chance() & 0xffU);
    const int held = picture::orientation_of(with_note(file, spoilt));
    EXPECT_TRUE(held >= 1 && held <= 8);
  }
}

TEST(read_picture, every_kind_of_png_comes_out_as_colours_on_white) {
  // 16 bit, grey of 1 bit, palette with a clear colour, grey with a cover, colours with a cover.
  EXPECT_EQ(read_picture(png(1, 1, 16, PNG_COLOR_TYPE_RGB, {std::string("\xff\xff\x80\x80\x00\x00", 6)})).value(),
            (Picture{1, 1, {255, 128, 0}}));
  EXPECT_EQ(read_picture(png(2, 1, 1, PNG_COLOR_TYPE_GRAY, {"\x40"})).value(),
            (Picture{2, 1, {0, 0, 0, 255, 255, 255}}));
  const std::string palette("\xc8\x32\x0a\x00\x00\x00", 6);
  EXPECT_EQ(read_picture(png(2, 1, 8, PNG_COLOR_TYPE_PALETTE, {std::string("\x00\x01", 2)}, false, palette,
                             std::string("\xff\x00", 2)))
                .value(),
            (Picture{2, 1, {200, 50, 10, 255, 255, 255}}));
  EXPECT_EQ(read_picture(png(2, 1, 8, PNG_COLOR_TYPE_GRAY_ALPHA, {std::string("\x0a\xff\x0a\x00", 4)})).value(),
            (Picture{2, 1, {10, 10, 10, 255, 255, 255}}));
  EXPECT_EQ(read_picture(png(1, 1, 8, PNG_COLOR_TYPE_RGB_ALPHA, {std::string("\x00\x64\xc8\x80", 4)})).value(),
            (Picture{1, 1, {127, 177, 227}}));
}

TEST(read_picture, is_no_larger_than_asked_for) {
  picture::Caps caps;
  caps.longest = 100;
  const Picture small = read_picture(jpeg(scene(1000, 640)), caps).value();
  EXPECT_EQ(small.width, 100);
  EXPECT_EQ(small.height, 64);
  EXPECT_LT(apart(small, picture::shrunk(scene(1000, 640), 100)), 2.0) << "decoded in parts and whole agree";
  const Picture turned = read_picture(with_note(jpeg(scene(1000, 640)), note(6)), caps).value();
  EXPECT_EQ(turned.width, 64);
  EXPECT_EQ(turned.height, 100);
}

TEST(read_picture, looks_at_the_head_before_it_decodes) {
  std::string bomb = jpeg(scene(16, 16));
  const std::size_t frame = bomb.find("\xff\xc0");
  ASSERT_NE(frame, std::string::npos);
  bomb.replace(frame + 5, 4, big(65535, 2) + big(65535, 2));
  EXPECT_EQ(read_picture(bomb).error().code, ErrorCode::unreadable) << "beyond what the library takes";
  bomb.replace(frame + 5, 4, big(65500, 2) + big(65500, 2));
  EXPECT_EQ(read_picture(bomb).error().code, ErrorCode::out_of_range);
  EXPECT_THAT(read_picture(bomb).error().message, HasSubstr("65500 x 65500"));
  bomb.replace(frame + 5, 4, big(1, 2) + big(16385, 2));
  EXPECT_EQ(read_picture(bomb).error().code, ErrorCode::out_of_range) << "one side too long";
  std::string wide = png(scene(16, 16));
  wide.replace(16, 8, big(65535, 4) + big(65535, 4));
  EXPECT_FALSE(read_picture(wide));
  picture::Caps caps;
  caps.bytes = 100;
  EXPECT_EQ(read_picture(png(scene(16, 16)), caps).error().code, ErrorCode::out_of_range);
}

/// A grey JPEG in passes: one for the means of its blocks, then the same one for the rest again and again, each a few
/// bytes that stand for all blocks.
std::string in_passes(std::uint32_t side, int passes) {
  const std::uint32_t blocks = (side + 7) / 8 * ((side + 7) / 8);
  const auto one_code = [](int table, int symbol) {
    return std::string("\xff\xc4\x00\x14", 4) + static_cast<char>(table) + '\x01' + std::string(15, '\0') +
           static_cast<char>(symbol);
  };
  std::string out("\xff\xd8\xff\xdb\x00\x43\x00", 7);
  out += std::string(64, '\x10');
  out += std::string("\xff\xc2\x00\x0b\x08", 5) + big(side, 2) + big(side, 2) + std::string("\x01\x01\x11\x00", 4);
  out += one_code(0x00, 0x00) + one_code(0x10, 0xe0);  // no difference; 16,384 blocks that are done, and 14 bits
  out += std::string("\xff\xda\x00\x08\x01\x01\x00\x00\x00\x00", 10) + std::string((blocks + 7) / 8, '\0');
  const std::string later = std::string("\xff\xda\x00\x08\x01\x01\x00\x01\x3f\x00", 10) +
                            std::string(((blocks + 16383) / 16384 * 15 + 7) / 8, '\0');
  for (int i = 1; i < passes; ++i) out += later;
  return out + "\xff\xd9";
}

TEST(read_picture, refuses_a_picture_in_ten_thousand_passes_soon) {
  EXPECT_TRUE(read_picture(in_passes(400, 10))) << "as cameras write them";
  const std::string file = in_passes(4000, 10'000);
  const auto began = std::chrono::steady_clock::now();
  const auto read = read_picture(file);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ErrorCode::unreadable);
  EXPECT_THAT(read.error().message, HasSubstr("more than 64 passes"));
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(30));
}

TEST(read_picture, of_a_file_cut_anywhere_nothing_is_shown) {
  for (const std::string& whole : {jpeg(scene(24, 16)), png(scene(24, 16)), png(scene(9, 7), true)}) {
    ASSERT_TRUE(read_picture(whole));
    for (std::size_t size = 0; size < whole.size(); ++size) {
      const auto cut = read_picture(std::string_view(whole).substr(0, size));
      ASSERT_FALSE(cut) << size << " of " << whole.size();
      EXPECT_FALSE(cut.error().message.empty());
      EXPECT_TRUE(cut.error().code == ErrorCode::unreadable || cut.error().code == ErrorCode::out_of_range);
    }
  }
}

TEST(read_picture, a_spoilt_file_has_a_clear_answer) {
  std::mt19937 chance(11);
  int refused = 0;
  for (const std::string& whole : {with_note(jpeg(scene(40, 30)), note(6)), png(scene(40, 30))})
    for (int i = 0; i < 1000; ++i) {
      std::string spoilt = whole;
      const int flips = 1 + static_cast<int>(chance() % 4);
      for (int k = 0; k < flips; ++k) spoilt[chance() % spoilt.size()] ^= static_cast<char>(1U << chance() % 8U);
      const auto read = read_picture(spoilt);
      if (read) {
        EXPECT_EQ(read->rgb.size(), static_cast<std::size_t>(read->width) * static_cast<std::size_t>(read->height) * 3);
        continue;
      }
      ++refused;
      EXPECT_TRUE(read.error().code == ErrorCode::unreadable || read.error().code == ErrorCode::out_of_range ||
                  read.error().code == ErrorCode::storage)
          << read.error().message;
    }
  EXPECT_GT(refused, 500) << "sums and warnings catch most";
}

TEST(to_jpeg, keeps_pixels_and_nothing_else) {
  std::string file = with_segment(with_note(jpeg(scene(64, 48)), note(3)), 0xed, "Photoshop 3.0 town and name");
  file = with_segment(file, 0xfe, "a comment");
  file = with_segment(file, 0xe2, std::string("ICC_PROFILE\0\x01\x01", 14) + "profile");
  const std::string kept = picture::to_jpeg(read_picture(file).value(), 85).value();
  for (const char* trace : {"Exif", "ACME", "2026:05", "N 47", "Photoshop", "town", "comment", "ICC_PROFILE"})
    EXPECT_EQ(kept.find(trace), std::string::npos) << trace;
  // Segments one after the other up to the pixels: only what a JPEG cannot be without, and its own mark.
  std::size_t at = 2;
  while (static_cast<unsigned char>(kept[at + 1]) != 0xda) {
    const int marker = static_cast<unsigned char>(kept[at + 1]);
    EXPECT_TRUE(marker == 0xe0 || marker == 0xdb || marker == 0xc0 || marker == 0xc4) << marker;
    at += 2 + (static_cast<std::size_t>(static_cast<unsigned char>(kept[at + 2])) << 8U) +
          static_cast<unsigned char>(kept[at + 3]);
    ASSERT_LT(at + 4, kept.size());
  }
  EXPECT_EQ(picture::to_jpeg(Picture{}, 85).error().code, ErrorCode::out_of_range);
}

}  // namespace
