// JPEG both ways. The library reports an error by never coming back: `guarded` is the one place that jumps, and nothing
// with a destructor stands between it and the library.

#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>
// After the library's own header, which it needs.
#include <jerror.h>

#include "picture/codecs.hpp"

namespace portwright::picture {
namespace {

using base::ErrorCode;

constexpr long memory_cap = 512L << 20;  // what the library may hold for passes [bytes]

// The library's error manager first, so that its pointer is ours; plain data throughout.
struct Trap {
  jpeg_error_mgr manager;
  std::jmp_buf back;
  std::array<char, JMSG_LENGTH_MAX> words;
  int scans = 0;  // allowed
};

Trap& trap_of(j_common_ptr info) { return *reinterpret_cast<Trap*>(info->err); }

[[noreturn]] void jump(j_common_ptr info) {
  Trap& trap = trap_of(info);
  trap.manager.format_message(info, trap.words.data());
  std::longjmp(trap.back, 1);
}

// A warning is data that was made up to go on; a picture with made-up parts is refused. A minor version is none.
void warned(j_common_ptr info, int level) {
  if (level < 0 && info->err->msg_code != JWRN_JFIF_MAJOR) jump(info);
}

void say_nothing(j_common_ptr) {}

void count_scans(j_common_ptr info) {
  if (!info->is_decompressor) return;
  auto* reader = reinterpret_cast<j_decompress_ptr>(info);
  Trap& trap = trap_of(info);
  if (reader->input_scan_number <= trap.scans) return;
  std::snprintf(trap.words.data(), trap.words.size(), "more than %d passes", trap.scans);
  std::longjmp(trap.back, 1);
}

// Runs calls of the library; false when one of them ended in an error, whose words the trap then holds. `calls` holds
// references and plain values only.
template <class Calls>
bool guarded(Trap& trap, const Calls& calls) {
  if (setjmp(trap.back) != 0) return false;
  calls();
  return true;
}

void set(Trap& trap) {
  jpeg_std_error(&trap.manager);
  trap.manager.error_exit = jump;
  trap.manager.emit_message = warned;
  trap.manager.output_message = say_nothing;
  trap.words[0] = '\0';
}

struct Reader {
  Trap trap{};
  jpeg_progress_mgr progress{};
  jpeg_decompress_struct info{};
  Reader() {
    set(trap);
    progress.progress_monitor = count_scans;
    info.err = &trap.manager;
  }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  ~Reader() { jpeg_destroy_decompress(&info); }
};

struct Writer {
  Trap trap{};
  jpeg_compress_struct info{};
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  Writer() {
    set(trap);
    info.err = &trap.manager;
  }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  ~Writer() {
    jpeg_destroy_compress(&info);
    std::free(bytes);
  }
};

tl::unexpected<base::Error> refused(const Trap& trap) {
  return base::fail(ErrorCode::unreadable,
                    std::string("The JPEG is damaged, cut off or of a rare kind (") + trap.words.data() + ").");
}

bool read_head(Reader& reader, std::string_view bytes) {
  return guarded(reader.trap, [&] {
    jpeg_create_decompress(&reader.info);
    reader.info.mem->max_memory_to_use = memory_cap;
    jpeg_mem_src(&reader.info, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_read_header(&reader.info, TRUE);
  });
}

// Into how many parts a side is cut while it is decoded: what is far too large need not be decoded whole.
unsigned parts(const Head& head, int longest) {
  unsigned cut = 1;
  const int longer = std::max(head.width, head.height);
  while (longest > 0 && cut < 8 && longer / static_cast<int>(cut * 2) >= longest) cut *= 2;
  return cut;
}

bool start(Reader& reader, const Head& head, const Caps& caps) {
  reader.trap.scans = caps.scans;
  reader.info.progress = &reader.progress;
  const bool four = reader.info.num_components == 4;
  return guarded(reader.trap, [&] {
    reader.info.out_color_space = four ? JCS_CMYK : JCS_RGB;
    reader.info.scale_num = 1;
    reader.info.scale_denom = parts(head, caps.longest);
    jpeg_start_decompress(&reader.info);
  });
}

bool read_rows(Reader& reader, std::uint8_t* to) {
  const std::size_t row =
      std::size_t{reader.info.output_width} * static_cast<std::size_t>(reader.info.output_components);
  return guarded(reader.trap, [&] {
    while (reader.info.output_scanline < reader.info.output_height) {
      JSAMPROW line = to + row * reader.info.output_scanline;
      jpeg_read_scanlines(&reader.info, &line, 1);
    }
    jpeg_finish_decompress(&reader.info);
  });
}

// Four inks to three lights, in place. Programs that mark themselves write the inks the other way round.
void inks_to_lights(std::vector<std::uint8_t>& bytes, bool inverted) {
  std::size_t to = 0;
  for (std::size_t from = 0; from + 3 < bytes.size(); from += 4) {
    const unsigned black = inverted ? bytes[from + 3] : 255U - bytes[from + 3];
    for (std::size_t c = 0; c < 3; ++c) {
      const unsigned light = inverted ? bytes[from + c] : 255U - bytes[from + c];
      bytes[to++] = static_cast<std::uint8_t>((light * black + 127U) / 255U);
    }
  }
  bytes.resize(to);
}

bool write_all(Writer& writer, const Picture& picture, int quality) {
  return guarded(writer.trap, [&] {
    jpeg_create_compress(&writer.info);
    jpeg_mem_dest(&writer.info, &writer.bytes, &writer.size);
    writer.info.image_width = static_cast<JDIMENSION>(picture.width);
    writer.info.image_height = static_cast<JDIMENSION>(picture.height);
    writer.info.input_components = 3;
    writer.info.in_color_space = JCS_RGB;
    jpeg_set_defaults(&writer.info);
    jpeg_set_quality(&writer.info, quality, TRUE);
    jpeg_start_compress(&writer.info, TRUE);
    const std::size_t row = static_cast<std::size_t>(picture.width) * 3;
    while (writer.info.next_scanline < writer.info.image_height) {
      // The library asks for rows that may be written to, and does not write to them.
      auto* line = const_cast<std::uint8_t*>(picture.rgb.data()) + row * writer.info.next_scanline;
      jpeg_write_scanlines(&writer.info, &line, 1);
    }
    jpeg_finish_compress(&writer.info);
  });
}

}  // namespace

base::Result<Head> jpeg_head(std::string_view bytes) {
  Reader reader;
  if (!read_head(reader, bytes)) return refused(reader.trap);
  return Head{Kind::jpeg, static_cast<int>(reader.info.image_width), static_cast<int>(reader.info.image_height)};
}

base::Result<Picture> jpeg_pixels(std::string_view bytes, const Head& head, const Caps& caps) {
  Reader reader;
  if (!read_head(reader, bytes) || !start(reader, head, caps)) return refused(reader.trap);
  Picture picture{static_cast<int>(reader.info.output_width), static_cast<int>(reader.info.output_height), {}};
  picture.rgb.resize(std::size_t{reader.info.output_width} * reader.info.output_height *
                     static_cast<std::size_t>(reader.info.output_components));
  if (!read_rows(reader, picture.rgb.data())) return refused(reader.trap);
  if (reader.info.output_components == 4) inks_to_lights(picture.rgb, reader.info.saw_Adobe_marker != 0);
  return picture;
}

base::Result<std::string> to_jpeg(const Picture& picture, int quality) {
  constexpr int longest = JPEG_MAX_DIMENSION;
  if (picture.width < 1 || picture.height < 1 || picture.width > longest || picture.height > longest) {
    return base::fail(ErrorCode::out_of_range, "A JPEG has sides of 1 to " + std::to_string(longest) + " pixels.");
  }
  Writer writer;
  if (!write_all(writer, picture, quality)) {
    return base::fail(ErrorCode::storage,
                      std::string("The JPEG cannot be written (") + writer.trap.words.data() + ").");
  }
  return std::string(reinterpret_cast<const char*>(writer.bytes), writer.size);
}

}  // namespace portwright::picture
