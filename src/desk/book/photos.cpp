// Photos of a saw: taken in, listed, named, put out of sight, given back.
#include "desk/book/photos.hpp"

#include <charconv>

#include "base/file.hpp"
#include "base/quantity/normal.hpp"
#include "desk/book.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "picture/read.hpp"

namespace portwright::desk {
namespace {

constexpr int longest_side = 2560, kept_quality = 85;  // about 1 MB for twelve megapixels
constexpr int longest_small_side = 480, small_quality = 80;
constexpr const char* photo_kind = "photo";
constexpr std::string_view blob_mark = "blob:";

// What is kept of a picture.
struct Kept {
  book::NewBlob whole, small;
  int width = 0, height = 0;
  std::string taken;
};

base::Result<Kept> kept_of(std::string_view bytes) {
  picture::Caps caps;
  caps.longest = longest_side;
  auto picture = picture::read_picture(bytes, caps);
  if (!picture) return tl::unexpected(picture.error());
  auto whole = picture::to_jpeg(*picture, kept_quality);
  if (!whole) return tl::unexpected(whole.error());
  auto small = picture::to_jpeg(picture::shrunk(*picture, longest_small_side), small_quality);
  if (!small) return tl::unexpected(small.error());
  return Kept{{std::move(*whole), "image/jpeg"},
              {std::move(*small), "image/jpeg"},
              picture->width,
              picture->height,
              picture::taken_of(bytes)};
}

book::Tree photo_body(const Kept& kept, const std::string& caption) {
  book::Tree out;
  put_part(out, "name", text_leaf(caption));
  put_part(out, "picture", text_leaf(std::string(blob_mark) + book::hash_of(kept.whole.bytes)));
  put_part(out, "small", text_leaf(std::string(blob_mark) + book::hash_of(kept.small.bytes)));
  put_part(out, "width", text_leaf(std::to_string(kept.width)));
  put_part(out, "height", text_leaf(std::to_string(kept.height)));
  put_part(out, "taken", text_leaf(kept.taken));
  return out;
}

int pixels_at(const book::Tree& body, const char* leaf) {
  const std::string text = text_at(body, leaf);
  int out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc() && end == text.data() + text.size() && out > 0 ? out : 0;
}

// The photo of a saw that has these bytes, in sight.
base::Result<std::optional<book::Document>> same_photo(Shelf& shelf, const std::string& saw, const std::string& hash) {
  auto parts = parts_of(shelf, saw);
  if (!parts) return tl::unexpected(parts.error());
  for (book::Document& part : *parts)
    if (part.kind == photo_kind && kept_hash(part, "picture") == hash) return std::move(part);
  return std::optional<book::Document>();
}

base::ResultAll<wire::BookDoneAnswer> already_there(Shelf& shelf, const ShelfSaw& saw, const book::Document& photo) {
  wire::BookDoneAnswer out;
  out.head = shelf.head();
  out.head.notices.emplace_back("The saw has this photo already; it was not added again.");
  out.saw = saw.saw.id;
  out.name = saw.saw.title;
  out.added = {photo.id};
  out.revision = revision_of(saw);
  return out;
}

base::ResultAll<wire::BookDoneAnswer> add_kept(Shelf& shelf, const ShelfSaw& saw, Kept kept,
                                               const std::string& caption) {
  auto same = same_photo(shelf, saw.saw.id, book::hash_of(kept.whole.bytes));
  if (!same) return only_error(same);
  if (*same) return already_there(shelf, saw, **same);
  book::Deed deed;
  deed.label = caption.empty() ? "photo" : "photo: " + caption;
  deed.added.push_back({book::new_id(), photo_kind, saw.saw.id, book::print(photo_body(kept, caption))});
  deed.blobs.push_back(std::move(kept.whole));
  deed.blobs.push_back(std::move(kept.small));
  return done(shelf, &saw.saw, std::move(deed));
}

// A photo that is in sight.
base::Result<book::Document> photo_of(Shelf& shelf, const std::string& id) {
  auto got = shelf.book.get(id);
  if (!got && got.error().code != base::ErrorCode::not_found && got.error().code != base::ErrorCode::usage) return got;
  if (!got || got->kind != photo_kind || got->hidden_itself)
    return base::fail(base::ErrorCode::not_found, "The book has no photo \u201C" + id + "\u201D.", "photo");
  return got;
}

base::ResultAll<wire::BookDoneAnswer> done_to(Shelf& shelf, const book::Document& photo, book::Deed deed) {
  auto saw = shelf.book.get(photo.belongs_to);
  if (!saw) return only_error(saw);
  return done(shelf, &*saw, std::move(deed));
}

base::ResultAll<std::vector<Kept>> all_kept(const std::vector<std::string>& files) {
  std::vector<Kept> out;
  base::Errors errors;
  for (const std::string& file : files) {
    const auto bytes = base::read_file(file, picture::Caps{}.bytes);
    auto kept = bytes ? kept_of(*bytes) : base::Result<Kept>(tl::unexpected(bytes.error()));
    if (kept) {
      out.push_back(std::move(*kept));
      continue;
    }
    base::Error error = kept.error();
    if (error.message.find(file) == std::string::npos) error.message = file + ": " + error.message;
    errors.push_back(std::move(error));
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return out;
}

}  // namespace

std::string kept_hash(const book::Document& photo, const char* leaf) {
  const std::string text = text_at(body_of(photo), leaf);
  return text.starts_with(blob_mark) ? text.substr(blob_mark.size()) : std::string();
}

wire::BookPhoto photo_line(const book::Document& photo) {
  const book::Tree body = body_of(photo);
  return {photo.id,      photo.title,  pixels_at(body, "width"),      pixels_at(body, "height"), text_at(body, "taken"),
          photo.created, photo.author, std::to_string(photo.revision)};
}

base::ResultAll<wire::BookDoneAnswer> book_photo(const BookPhotoRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  const auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  const auto known = shelf->book.done_with(request.by.token);
  if (!known) return only_error(known);
  if (*known) return done(*shelf, &found->saw, {});
  auto kept = kept_of(request.bytes);
  if (!kept) return only_error(kept);
  return add_kept(*shelf, *found, std::move(*kept), std::string(base::typed::trimmed(request.caption)));
}

base::ResultAll<wire::BookPhotosAnswer> book_photo_files(const BookPhotoFilesRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  const auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  auto all = all_kept(request.files);
  if (!all) return tl::unexpected(all.error());
  wire::BookPhotosAnswer answer;
  answer.saw = found->saw.id;
  answer.name = found->saw.title;
  std::vector<std::string> notices;
  for (std::size_t i = 0; i < all->size(); ++i) {
    auto added = add_kept(*shelf, *found, std::move((*all)[i]), request.caption);
    if (!added) return tl::unexpected(added.error());
    for (const std::string& notice : added->head.notices) notices.push_back(request.files[i] + ": " + notice);
    for (const std::string& id : added->added)
      if (auto photo = shelf->book.get(id)) answer.photos.push_back(photo_line(*photo));
  }
  answer.head = shelf->head();
  answer.head.notices.insert(answer.head.notices.end(), notices.begin(), notices.end());
  return answer;
}

base::ResultAll<wire::BookPhotosAnswer> book_photos(const BookSawRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  const auto found = find_saw(*shelf, request.saw, true);
  if (!found) return only_error(found);
  const auto parts = parts_of(*shelf, found->saw.id);
  if (!parts) return only_error(parts);
  wire::BookPhotosAnswer answer;
  answer.head = shelf->head();
  answer.saw = found->saw.id;
  answer.name = found->saw.title;
  for (const book::Document& part : *parts)
    if (part.kind == photo_kind) answer.photos.push_back(photo_line(part));
  return answer;
}

base::ResultAll<wire::BookDoneAnswer> book_caption(const BookCaptionRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  const auto photo = photo_of(*shelf, request.photo);
  if (!photo) return only_error(photo);
  const std::string text(base::typed::trimmed(request.text));
  book::Deed deed;
  deed.label = text.empty() ? "photo without words" : "photo: " + text;
  std::optional<std::string> value;
  if (!text.empty()) value = book::print(text_leaf(text));
  deed.changes.push_back({photo->id, "name", value, request.base.value_or(photo->revision)});
  return done_to(*shelf, *photo, std::move(deed));
}

base::ResultAll<wire::BookDoneAnswer> book_hide_photo(const BookHidePhotoRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  const auto known = shelf->book.done_with(request.by.token);
  if (!known) return only_error(known);
  if (*known) return done(*shelf, nullptr, {});
  const auto photo = photo_of(*shelf, request.photo);
  if (!photo) return only_error(photo);
  book::Deed deed;
  deed.label = "photo hidden";
  deed.hidden = {photo->id};
  return done_to(*shelf, *photo, std::move(deed));
}

base::Result<BookPicture> book_picture(const BookPictureRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return tl::unexpected(shelf.error());
  const auto photo = photo_of(*shelf, request.photo);
  if (!photo) return tl::unexpected(photo.error());
  BookPicture out{kept_hash(*photo, request.small ? "small" : "picture"), {}};
  if (!out.hash.empty() && out.hash == request.known) return out;
  auto blob = shelf->book.blob(out.hash);
  if (!blob) return tl::unexpected(blob.error());
  // Whatever an import brought under that name: only a JPEG is given as one.
  const auto kind = picture::kind_of(blob->bytes);
  if (!kind || *kind != picture::Kind::jpeg)
    return base::fail(base::ErrorCode::damaged, "What was kept as this photo is no JPEG.", "photo");
  out.bytes = std::move(blob->bytes);
  return out;
}

}  // namespace portwright::desk
