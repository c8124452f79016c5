// PNG in. As with JPEG, `guarded` is the one place that jumps, and nothing with a destructor stands between it and the
// library.

#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstring>

#include <png.h>

#include "picture/codecs.hpp"

namespace portwright::picture {
namespace {

using base::ErrorCode;

constexpr std::size_t chunk_cap = 8U << 20;  // what one part of the file may unpack to, pixels aside [bytes]

struct Trap {
  std::jmp_buf back;
  std::array<char, 128> words;
};

struct Source {
  const char* at = nullptr;
  std::size_t left = 0;
};

[[noreturn]] void jump(png_structp png, png_const_charp words) {
  auto& trap = *static_cast<Trap*>(png_get_error_ptr(png));
  std::snprintf(trap.words.data(), trap.words.size(), "%s", words);
  std::longjmp(trap.back, 1);
}

// Notes beside the pixels are dropped, so a warning about them is nothing to a person.
void say_nothing(png_structp, png_const_charp) {}

void give(png_structp png, png_bytep to, png_size_t wanted) {
  auto& source = *static_cast<Source*>(png_get_io_ptr(png));
  if (wanted > source.left) png_error(png, "it ends too early");
  std::memcpy(to, source.at, wanted);
  source.at += wanted;
  source.left -= wanted;
}

template <class Calls>
bool guarded(Trap& trap, const Calls& calls) {
  if (setjmp(trap.back) != 0) return false;
  calls();
  return true;
}

struct Reader {
  Trap trap{};
  Source source{};
  png_structp png = nullptr;
  png_infop info = nullptr;
  explicit Reader(std::string_view bytes) : source{bytes.data(), bytes.size()} {
    // Making the reader may already fail, by jumping.
    guarded(trap, [this] {
      png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &trap, jump, say_nothing);
      if (png != nullptr) info = png_create_info_struct(png);
    });
  }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  ~Reader() { png_destroy_read_struct(&png, &info, nullptr); }
};

tl::unexpected<base::Error> refused(const Reader& reader) {
  const char* words = reader.trap.words[0] != '\0' ? reader.trap.words.data() : "no memory";
  return base::fail(ErrorCode::unreadable, std::string("The PNG is damaged or cut off (") + words + ").");
}

bool read_head(Reader& reader) {
  return reader.info != nullptr && guarded(reader.trap, [&] {
           png_set_user_limits(reader.png, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // the caller has caps of its own
           png_set_chunk_malloc_max(reader.png, chunk_cap);
           png_set_chunk_cache_max(reader.png, 64);
           png_set_keep_unknown_chunks(reader.png, PNG_HANDLE_CHUNK_NEVER, nullptr, -1);
           png_set_read_fn(reader.png, &reader.source, give);
           png_read_info(reader.png, reader.info);
         });
}

// Eight bits, colours, and a fourth byte where something is transparent.
bool ask_for_bytes(Reader& reader) {
  return guarded(reader.trap, [&] {
    png_set_expand(reader.png);
    png_set_scale_16(reader.png);
    png_set_gray_to_rgb(reader.png);
    png_set_interlace_handling(reader.png);
    png_read_update_info(reader.png, reader.info);
  });
}

bool read_rows(Reader& reader, png_bytepp rows) {
  return guarded(reader.trap, [&] {
    png_read_image(reader.png, rows);
    png_read_end(reader.png, nullptr);
  });
}

// What is transparent lies on white; in place.
void on_white(std::vector<std::uint8_t>& bytes) {
  std::size_t to = 0;
  for (std::size_t from = 0; from + 3 < bytes.size(); from += 4) {
    const unsigned cover = bytes[from + 3];
    for (std::size_t c = 0; c < 3; ++c) {
      bytes[to++] = static_cast<std::uint8_t>((bytes[from + c] * cover + 255U * (255U - cover) + 127U) / 255U);
    }
  }
  bytes.resize(to);
}

}  // namespace

base::Result<Head> png_head(std::string_view bytes) {
  Reader reader(bytes);
  if (!read_head(reader)) return refused(reader);
  return Head{Kind::png, static_cast<int>(png_get_image_width(reader.png, reader.info)),
              static_cast<int>(png_get_image_height(reader.png, reader.info))};
}

base::Result<Picture> png_pixels(std::string_view bytes, const Head& head) {
  Reader reader(bytes);
  if (!read_head(reader) || !ask_for_bytes(reader)) return refused(reader);
  const std::size_t row = png_get_rowbytes(reader.png, reader.info);
  const std::size_t channels = png_get_channels(reader.png, reader.info);
  if (row != static_cast<std::size_t>(head.width) * channels || channels < 3) return refused(reader);
  Picture picture{head.width, head.height, {}};
  picture.rgb.resize(row * static_cast<std::size_t>(head.height));
  std::vector<png_bytep> rows(static_cast<std::size_t>(head.height));
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = picture.rgb.data() + i * row;
  if (!read_rows(reader, rows.data())) return refused(reader);
  if (channels == 4) on_white(picture.rgb);
  return picture;
}

}  // namespace portwright::picture
