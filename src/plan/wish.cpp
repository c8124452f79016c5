#include "plan/wish.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <span>

#include "base/quantity/number.hpp"
#include "base/quantity/text.hpp"
#include "cuts/grammar.hpp"
#include "cuts/words.hpp"

namespace portwright::plan {
namespace {

using base::Dimension;
using base::ErrorCode;
using Texts = std::vector<std::string>;

constexpr std::size_t most_wishes = 24;

/// A figure of the whole saw and the words it may be called by; the first is its name.
struct Whole {
  Aspect aspect;
  std::array<std::string_view, 2> words;
};
constexpr std::array wholes{Whole{Aspect::blowdown, {"blowdown", "blowdown"}},
                            Whole{Aspect::squish, {"squish", "squish clearance"}},
                            Whole{Aspect::chamber, {"chamber", "chamber volume"}},
                            Whole{Aspect::trapped_ratio, {"trapped ratio", "trapped compression ratio"}},
                            Whole{Aspect::full_ratio, {"full ratio", "full compression ratio"}}};

constexpr std::array<std::pair<std::string_view, Aspect>, 5> port_words{{{"opens", Aspect::opens},
                                                                         {"open", Aspect::opens},
                                                                         {"closes", Aspect::closes},
                                                                         {"duration", Aspect::duration},
                                                                         {"width", Aspect::width}}};

Dimension dimension_of(Aspect aspect) {
  switch (aspect) {
    case Aspect::opens:
    case Aspect::closes:
    case Aspect::duration:
    case Aspect::blowdown:
      return Dimension::angle;
    case Aspect::chamber:
      return Dimension::volume;
    case Aspect::trapped_ratio:
    case Aspect::full_ratio:
      return Dimension::count;
    case Aspect::width_of_bore:
      return Dimension::share;
    default:
      return Dimension::length;
  }
}

bool is_name(std::string_view word) {
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  return !word.empty() && word.size() <= 64 && letter(word.front()) &&
         std::all_of(word.begin(), word.end(), [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == '_'; });
}

/// Reads one wish; the words are taken from the front.
class WishReader {
 public:
  WishReader(const cuts::Phrase& phrase, std::size_t number, bool offers)
      : path_("wishes." + std::to_string(number)), offers_(offers) {
    for (const cuts::Word& word : phrase.words) rest_.push_back(cuts::lower(word.text));
    wish_.text = phrase.text;
  }

  std::optional<Wish> read() {
    take_stock();
    if (!read_subject()) return std::nullopt;
    if (wish_.aspect == Aspect::squish && rest_.size() == 1 && !wish_.as_stock && take_if("free")) {
      wish_.free = true;
      return wish_;
    }
    if (!read_value()) return std::nullopt;
    return wish_;
  }

  base::Errors errors;

 private:
  bool fail(ErrorCode code, const std::string& why, std::string hint = {}, Texts readings = {}) {
    if (offers_) std::erase_if(readings, [](const std::string& text) { return !can_be_read(text); });
    errors.push_back({code, cuts::shown(wish_.text) + " " + why, path_, std::move(hint), std::move(readings)});
    return false;
  }
  static bool can_be_read(const std::string& text) {
    const auto phrases = cuts::part_list(text);
    return phrases && phrases->size() == 1 && WishReader(phrases->front(), 1, false).read();
  }

  [[nodiscard]] bool next_is(std::string_view word) const { return !rest_.empty() && rest_.front() == word; }
  std::string take() {
    std::string word = std::move(rest_.front());
    rest_.erase(rest_.begin());
    return word;
  }
  bool take_if(std::string_view word) {
    if (!next_is(word)) return false;
    take();
    return true;
  }
  /// Several words in a row, or none of them.
  bool take_words(std::string_view words) {
    std::size_t count = 0;
    for (std::string_view left = words; !left.empty(); ++count) {
      const std::string_view word = left.substr(0, left.find(' '));
      if (count >= rest_.size() || rest_[count] != word) return false;
      left.remove_prefix(std::min(left.size(), word.size() + 1));
    }
    rest_.erase(rest_.begin(), rest_.begin() + static_cast<std::ptrdiff_t>(count));
    return true;
  }

  void take_stock() {
    const std::size_t n = rest_.size();
    if (n < 2 || rest_[n - 1] != "stock" || rest_[n - 2] != "as") return;
    rest_.resize(n - 2);
    wish_.as_stock = true;
  }

  bool read_subject() {
    if (rest_.empty()) return fail(ErrorCode::unreadable, "does not say what is wished", like());
    if (take_if("skirt")) return read_skirt();
    for (const Whole& whole : wholes) {
      // The longer name first.
      if (!take_words(whole.words[1]) && !take_words(whole.words[0])) continue;
      wish_.aspect = whole.aspect;
      head_ = std::string(whole.words[0]);
      return true;
    }
    return read_port();
  }

  bool read_skirt() {
    wish_.aspect = Aspect::skirt_cover;
    head_ = "skirt cover";
    const auto side = [&] {
      if (next_is("exhaust") || next_is("intake")) wish_.subject = take();
    };
    side();
    if (!take_if("cover")) return fail(ErrorCode::unreadable, "is no wish", like(), {"skirt cover at least 1 mm"});
    if (wish_.subject.empty()) side();
    if (!wish_.subject.empty()) head_ += " " + wish_.subject;
    return true;
  }

  bool read_port() {
    if (!is_name(rest_.front()) || next_is("at") || next_is("as"))
      return fail(ErrorCode::unreadable, "does not say what is wished", like());
    wish_.subject = take();
    head_ = wish_.subject;
    take_if("port");
    for (const auto& [word, aspect] : port_words) {
      if (!take_if(word)) continue;
      wish_.aspect = aspect;
      head_ += " " + std::string(word);
      return true;
    }
    const bool at_an_angle = next_is("at") && rest_.size() > 1 && rest_[1] != "least" && rest_[1] != "most";
    if (!at_an_angle) return ask_aspect();
    wish_.aspect = Aspect::opens;
    head_ += " at";
    return true;
  }

  /// "exhaust 99 deg" may be where it opens or how long it is open.
  bool ask_aspect() {
    constexpr std::array<std::string_view, 6> known{"blowdown", "squish", "chamber", "trapped", "full", "skirt"};
    if (const std::string_view near = cuts::nearest_word(wish_.subject, known); !near.empty())
      return fail(ErrorCode::unreadable, "begins with no figure that is known: " + cuts::shown(wish_.subject),
                  "the nearest is " + std::string(near));
    Texts readings;
    const std::string rest = cuts::joined(rest_) + (wish_.as_stock ? "as stock" : "");
    for (const char* word : {" opens ", " closes ", " duration ", " width "})
      if (!rest.empty()) readings.push_back(wish_.subject + word + rest);
    const std::string hint = rest.empty() ? like() : "Say which.";
    return fail(ErrorCode::unreadable, "does not say what of " + wish_.subject + " is wished", hint,
                offers_ ? readings : Texts());
  }

  bool read_value() {
    if (take_words("at least"))
      wish_.relation = Relation::at_least;
    else if (take_words("at most"))
      wish_.relation = Relation::at_most;
    else
      take_if("at");
    relation_ = wish_.relation == Relation::is ? "" : wish_.relation == Relation::at_least ? " at least" : " at most";
    if (wish_.as_stock) return rest_.empty() || fail(ErrorCode::unreadable, "says two things before \"as stock\"");
    const std::string text = cuts::joined(rest_);
    if (text.empty()) return fail(ErrorCode::unreadable, "does not say how much", like());
    if (wish_.aspect == Aspect::width) return read_width(text);
    return read_quantity(text);
  }

  /// A chord, or its share of the bore.
  bool read_width(const std::string& text) {
    if (text.find('%') != std::string::npos) wish_.aspect = Aspect::width_of_bore;
    const bool bare = text.find_first_not_of("0123456789.,") == std::string::npos;
    if (!bare) return read_quantity(text);
    return fail(ErrorCode::unreadable, "has no unit", "A width is a chord or a share of the bore.",
                {whole(text + " mm"), whole(text + " %")});
  }

  bool read_quantity(const std::string& text) {
    const auto read = base::parse_quantity(text, dimension_of(wish_.aspect), path_);
    if (!read) {
      base::Error e = read.error();
      for (std::string& reading : e.readings) reading = whole(reading);
      return fail(e.code, "cannot be taken: " + e.message, e.hint, e.readings);
    }
    if (read->sigma) return fail(ErrorCode::unreadable, "has a tolerance; a wish is told without one");
    wish_.value = read->si;
    wish_.within = 0.5 * read->resolution;
    const bool may_be_less = wish_.aspect == Aspect::skirt_cover || wish_.aspect == Aspect::blowdown;
    if (wish_.value <= 0.0 && !may_be_less) return fail(ErrorCode::out_of_range, "asks for nothing or less");
    return true;
  }

  [[nodiscard]] std::string whole(const std::string& amount) const { return head_ + relation_ + " " + amount; }
  static std::string like() {
    return "as in: exhaust at 99 deg; blowdown 21 deg; squish 0.5 mm; trapped ratio as stock; exhaust width 62 %; "
           "skirt cover at least 1 mm";
  }

  std::string path_;
  bool offers_;
  Texts rest_;
  std::string head_, relation_;  ///< words before the amount, for the wishes that are offered
  Wish wish_;
};

}  // namespace

base::ResultAll<Wishes> parse_wishes(std::string_view text) {
  const auto phrases = cuts::part_list(text);
  if (!phrases) {
    base::Error error = phrases.error();
    error.code = ErrorCode::unreadable;
    error.path = "wishes";
    if (const std::size_t at = error.message.find("cut list"); at != std::string::npos)
      error.message.replace(at, 8, "list of wishes");
    if (const std::size_t at = error.message.find("200 cuts"); at != std::string::npos)
      error.message.replace(at, 8, "24 wishes");
    return tl::unexpected(base::Errors{error});
  }
  Wishes wishes;
  base::Errors errors;
  if (phrases->empty())
    errors.push_back({ErrorCode::unreadable,
                      "Nothing is wished.",
                      "wishes",
                      "as in: exhaust at 99 deg; squish 0.5 mm; trapped ratio as stock",
                      {}});
  if (phrases->size() > most_wishes)
    errors.push_back({ErrorCode::unreadable, "More than 24 wishes at once.", "wishes", "", {}});
  for (std::size_t i = 0; i < std::min(phrases->size(), most_wishes); ++i) {
    WishReader reader((*phrases)[i], i + 1, true);
    if (auto wish = reader.read()) wishes.push_back(std::move(*wish));
    errors.insert(errors.end(), reader.errors.begin(), reader.errors.end());
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return wishes;
}

const char* aspect_word(Aspect aspect) {
  switch (aspect) {
    case Aspect::opens:
      return "opens";
    case Aspect::closes:
      return "closes";
    case Aspect::duration:
      return "duration";
    case Aspect::width:
    case Aspect::width_of_bore:
      return "width";
    case Aspect::blowdown:
      return "blowdown";
    case Aspect::squish:
      return "squish";
    case Aspect::chamber:
      return "chamber";
    case Aspect::trapped_ratio:
      return "trapped ratio";
    case Aspect::full_ratio:
      return "full ratio";
    case Aspect::skirt_cover:
      return "skirt cover";
  }
  return "";
}

bool is_of_port(Aspect aspect) {
  return aspect == Aspect::opens || aspect == Aspect::closes || aspect == Aspect::duration || aspect == Aspect::width ||
         aspect == Aspect::width_of_bore;
}

}  // namespace portwright::plan
