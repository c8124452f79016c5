#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/quantity/normal.hpp"
#include "base/quantity/number.hpp"
#include "base/quantity/text.hpp"
#include "cuts/grammar.hpp"
#include "cuts/words.hpp"

namespace portwright::cuts {
namespace {

using base::Error;
using base::ErrorCode;
using base::Errors;
using Texts = std::vector<std::string>;

bool is_name(std::string_view word) {
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  const auto fits = [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == '_'; };
  return !word.empty() && word.size() <= 64 && letter(word.front()) && std::all_of(word.begin(), word.end(), fits);
}

bool has_sign(std::string_view amount) { return !amount.empty() && (amount.front() == '-' || amount.front() == '+'); }

std::string joined_list(std::span<const std::string_view> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + std::string(words[i]);
  return out;
}

/// Reads one phrase. Every trouble found in it is told, not only the first.
class CutReader {
 public:
  /// @param offers whether to look for what a doubtful cut could have meant
  CutReader(const Phrase& phrase, std::size_t number, bool offers)
      : phrase_(phrase), path_("cuts." + std::to_string(number)), offers_(offers) {
    for (const Word& word : phrase.words) rest_.push_back(word);
    cut_.text = phrase.text;
  }

  std::optional<Cut> read() {
    if (phrase_.open_quote) {
      fail(ErrorCode::bad_cut, "has a quotation mark without its partner");
      return std::nullopt;
    }
    if (!read_act()) return std::nullopt;
    if (form_->port) read_port();
    if (form_->side != SideForm::none) read_side();
    read_amount();
    if (!errors.empty()) return std::nullopt;
    return cut_;
  }

  Errors errors;

 private:
  void fail(ErrorCode code, const std::string& why, std::string hint = {}, Texts readings = {}) {
    errors.push_back({code, shown(cut_.text) + " " + why, path_, std::move(hint), std::move(readings)});
  }
  std::string like() const { return "as in: " + std::string(form_->example); }

  std::string take() {
    std::string word = std::move(rest_.front().text);
    rest_.erase(rest_.begin());
    return word;
  }
  bool next_is(std::string_view word) const {
    return !rest_.empty() && !rest_.front().quoted && lower(rest_.front().text) == word;
  }

  bool read_act() {
    std::string word = lower(take());
    if (word == "crown" && next_is("edge")) word += " " + lower(take());
    const bool out = word == "gasket" && next_is("out");
    for (const Form& form : forms()) {
      if (form.word != word || (out != (form.act == Act::gasket_out))) continue;
      form_ = &form;
      cut_.act = form.act;
      if (form.act == Act::swap) cut_.part = word;
      heads_.push_back(word);
      if (out) heads_.push_back(take());
      return true;
    }
    tell_unknown(word);
    return false;
  }

  void tell_unknown(const std::string& word) {
    std::vector<std::string_view> words;
    for (const Form& form : forms()) {
      if (words.empty() || words.back() != form.word) words.push_back(form.word);
    }
    const std::string_view near = nearest_word(word, words);
    const std::string hint =
        near.empty() ? "a cut starts with " + joined_list(words) : "the nearest is " + std::string(near);
    fail(ErrorCode::bad_cut,
         word == "crown" ? "is no cut; the crown edge is turned as \"crown edge -1 mm wide 6 mm\""
                         : "starts with no cut that is known: " + shown(word),
         hint);
  }

  void read_port() {
    if (!rest_.empty() && is_name(lower(rest_.front().text)) && !next_is("to")) {
      cut_.port = lower(take());
      heads_.push_back(cut_.port);
      return;
    }
    fail(ErrorCode::bad_cut, "does not say which port", like());
  }

  void read_side() {
    const auto is_side = [&](const Word& word) {
      return std::find(form_->sides.begin(), form_->sides.end(), lower(word.text)) != form_->sides.end();
    };
    const auto found = std::find_if(rest_.begin(), rest_.end(), is_side);
    if (found != rest_.end()) {
      cut_.side = lower(found->text);
      rest_.erase(found);
    } else if (form_->side == SideForm::needed) {
      fail(ErrorCode::bad_cut, "does not say " + joined_list(form_->sides), like());
    }
    if (!cut_.side.empty()) (form_->side == SideForm::needed ? heads_ : tails_).push_back(cut_.side);
  }

  void read_amount() {
    const bool size = form_->amount == AmountForm::size || form_->amount == AmountForm::areas ||
                      form_->amount == AmountForm::octane || form_->amount == AmountForm::file;
    if (size) heads_.push_back("to");
    if (size && next_is("to"))
      take();
    else if (size)
      return fail(ErrorCode::bad_cut, "does not say to what it is brought", like());
    switch (form_->amount) {
      case AmountForm::none:
        return read_nothing();
      case AmountForm::file:
        return read_file();
      case AmountForm::octane:
        return read_octane();
      case AmountForm::areas:
        return read_areas();
      default:
        break;
    }
    if (cut_.act == Act::crown_edge) read_width();
    cut_.amount = read_quantity(rest_text(), tails_).value_or(0.0);
  }

  void read_nothing() {
    if (!rest_.empty()) fail(ErrorCode::bad_cut, "has more after " + shown("out"), like());
  }

  /// The words that are left, with a sign that stands alone put before its number.
  std::string rest_text() {
    std::string out;
    for (const Word& word : rest_) out += (out.empty() || out == "-" || out == "+" ? "" : " ") + word.text;
    rest_.clear();
    return out;
  }

  /// Width of the turned ring, after `wide`; what stands before it is left.
  void read_width() {
    const auto wide =
        std::find_if(rest_.begin(), rest_.end(), [](const Word& word) { return lower(word.text) == "wide"; });
    if (wide == rest_.end()) return fail(ErrorCode::bad_cut, "does not say how wide the turned ring is", like());
    std::vector<Word> before(rest_.begin(), wide);
    rest_.erase(rest_.begin(), wide + 1);
    const std::string width = rest_text();
    rest_ = std::move(before);
    heads_.push_back(joined(texts(rest_)) + " wide");
    const auto value = read_plain(width, {});
    heads_.pop_back();
    if (value && *value <= 0.0) fail(ErrorCode::out_of_range, "has a ring that is no wider than nothing", like());
    cut_.width = value.value_or(0.0);
    tails_ = {"wide", value ? amount_text(*value, form_->dimension) : width};
  }

  static Texts texts(const std::vector<Word>& words) {
    Texts out;
    for (const Word& word : words) out.push_back(word.text);
    return out;
  }

  /// A whole cut with this amount in it; empty when that could not be read either.
  std::string whole(const std::string& amount, const Texts& tails) const {
    Texts words = heads_;
    words.push_back(amount);
    words.insert(words.end(), tails.begin(), tails.end());
    std::string text = joined(words);
    return can_be_read(text) ? text : std::string();
  }
  static bool can_be_read(const std::string& text) {
    const auto phrases = part_list(text);
    return phrases && phrases->size() == 1 && CutReader(phrases->front(), 1, false).read();
  }
  Texts wholes(const Texts& amounts, const Texts& tails) const {
    Texts out;
    if (!offers_) return out;
    for (const std::string& amount : amounts) {
      if (std::string text = whole(amount, tails); !text.empty()) out.push_back(std::move(text));
    }
    return out;
  }

  /// An amount with the sign that its form asks for.
  std::optional<double> read_quantity(const std::string& text, const Texts& tails) {
    const bool change = form_->amount == AmountForm::change;
    if (change && !text.empty() && !has_sign(text)) return ask_sign(text, tails);
    const auto value = read_plain(text, tails);
    if (value && form_->amount == AmountForm::size && !size_fits(*value)) return std::nullopt;
    return value;
  }

  std::optional<double> ask_sign(const std::string& text, const Texts& tails) {
    const auto read = base::parse_quantity(text, form_->dimension);
    if (read && read->si == 0.0) return 0.0;
    if (!read && read.error().readings.empty()) return read_plain(text, tails);
    Texts amounts;
    for (const std::string& one : read ? Texts{text} : read.error().readings)
      amounts.insert(amounts.end(), {"-" + one, "+" + one});
    const std::string unit = read ? "" : ", and its amount is not clear";
    fail(ErrorCode::bad_cut, "does not say which way: " + shown(text) + " has no sign" + unit,
         "write - or + before the number", wholes(amounts, tails));
    return std::nullopt;
  }

  /// A quantity of the form's kind within its range [SI], as canonical text would give it back.
  std::optional<double> read_plain(const std::string& text, const Texts& tails) {
    if (text.empty()) return fail(ErrorCode::bad_cut, "does not say how much", like()), std::nullopt;
    const auto read = base::parse_quantity(text, form_->dimension);
    if (!read) {
      Error e = read.error();
      const std::string sign = text.front() == '+' ? "+" : "";
      for (std::string& reading : e.readings) {
        if (!has_sign(reading)) reading.insert(0, sign);
      }
      fail(e.code, "cannot be taken: " + e.message, e.hint, wholes(e.readings, tails));
      return std::nullopt;
    }
    if (read->sigma)
      return fail(ErrorCode::bad_cut, "has a tolerance; a cut is told without one", like()), std::nullopt;
    if (std::abs(read->si) > form_->greatest) {
      fail(ErrorCode::out_of_range, "is larger than any cut: " + shown(text),
           "at most " + amount_text(form_->greatest, form_->dimension));
      return std::nullopt;
    }
    return canonical_amount(read->si, form_->dimension);
  }

  bool size_fits(double value) {
    const bool may_be_none = cut_.act == Act::gasket_to || cut_.act == Act::corner;
    if (value > 0.0 || (may_be_none && value == 0.0)) return true;
    fail(ErrorCode::out_of_range, "brings a size to nothing or less", like());
    return false;
  }

  void read_file() {
    const bool named = rest_.size() == 1 || (!rest_.empty() && !rest_.front().quoted);
    if (rest_.empty()) return fail(ErrorCode::bad_cut, "does not name a file", like());
    if (!named) return fail(ErrorCode::bad_cut, "has more after the file's name", like());
    cut_.file = joined(texts(rest_));
    if (cut_.file.empty()) return fail(ErrorCode::bad_cut, "does not name a file", like());
    if (cut_.file.size() > 1024) fail(ErrorCode::bad_cut, "has a file name longer than 1024 bytes");
  }

  void read_octane() {
    constexpr std::array<std::string_view, 3> methods{"pump", "research", "motor"};
    const std::string text = lower(rest_text());
    const std::size_t blank = text.rfind(' ');
    const std::string method = blank == std::string::npos ? "" : text.substr(blank + 1);
    const bool known = std::find(methods.begin(), methods.end(), method) != methods.end();
    const std::string number = known ? text.substr(0, blank) : text;
    const auto read = base::parse_quantity(number, form_->dimension);
    if (!read || read->sigma || read->si <= 0.0 || read->si > form_->greatest) {
      return fail(ErrorCode::bad_cut, "has no octane number: " + shown(text), like());
    }
    if (!known) {
      Texts readings;
      for (const std::string_view m : methods)
        readings.push_back("octane to \"" + number + " " + std::string(m) + "\"");
      return fail(ErrorCode::bad_cut, "does not say by which method " + shown(number) + " is an octane number",
                  "pump is the mean of research and motor", wholes_as_typed(readings));
    }
    cut_.amount = std::stod(base::typed::plain_number(read->si));
    cut_.part = method;
  }

  Texts wholes_as_typed(const Texts& texts) const {
    Texts out;
    for (const std::string& text : texts) {
      if (offers_ && can_be_read(text)) out.push_back(text);
    }
    return out;
  }

  /// Several areas in a row: a word that starts like a number starts the next area, once the last one has its unit.
  void read_areas() {
    Texts areas;
    bool complete = true;
    for (const Word& word : rest_) {
      const std::string text = word.text.ends_with(',') ? word.text.substr(0, word.text.size() - 1) : word.text;
      if (lower(text) == "and" || text.empty()) continue;
      const char head = text.front();
      const bool number = (head >= '0' && head <= '9') || head == '.' || head == '-' || head == '+';
      if (areas.empty() || (number && complete))
        areas.push_back(text);
      else
        areas.back() += " " + text;
      complete =
          std::any_of(areas.back().begin(), areas.back().end(), [](char c) { return base::typed::is_letter(c); });
    }
    rest_.clear();
    if (areas.empty()) fail(ErrorCode::bad_cut, "does not say how much", like());
    if (areas.size() > 8) return fail(ErrorCode::bad_cut, "has more than eight outlets");
    for (std::size_t i = 0; i < areas.size(); ++i) read_area(areas, i);
  }

  void read_area(const Texts& areas, std::size_t i) {
    const Texts tails(areas.begin() + static_cast<std::ptrdiff_t>(i) + 1, areas.end());
    const auto value = read_plain(areas[i], tails);
    heads_.push_back(areas[i]);
    if (!value) return;
    if (*value <= 0.0) fail(ErrorCode::out_of_range, "brings a size to nothing or less", like());
    cut_.amounts.push_back(*value);
  }

  const Phrase& phrase_;
  std::string path_;
  bool offers_ = true;
  std::vector<Word> rest_;
  Texts heads_, tails_;  ///< the words round the amount, for the cuts that are offered
  const Form* form_ = nullptr;
  Cut cut_;
};

}  // namespace

base::ResultAll<CutList> parse_cuts(std::string_view text) {
  const auto phrases = part_list(text);
  if (!phrases) return tl::unexpected(Errors{phrases.error()});
  CutList cuts;
  Errors errors;
  for (std::size_t i = 0; i < phrases->size(); ++i) {
    CutReader reader((*phrases)[i], i + 1, true);
    if (auto cut = reader.read()) cuts.push_back(std::move(*cut));
    errors.insert(errors.end(), reader.errors.begin(), reader.errors.end());
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return cuts;
}

}  // namespace portwright::cuts
