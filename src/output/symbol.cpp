#include "output/symbol.h"

#include <dlfcn.h>
#include <unistd.h>
#include <zint.h>

#include <memory>

#include "base/text.h"

namespace peelbook::output {
namespace {

namespace fs = std::filesystem;

// The functions of the library whose header was compiled in (PEELBOOK_ZINT is its soname), or none when it is
// not installed.
struct Zint {
    decltype(&ZBarcode_Create) create = nullptr;
    decltype(&ZBarcode_Delete) destroy = nullptr;
    decltype(&ZBarcode_Encode) encode = nullptr;
    decltype(&ZBarcode_Print) print = nullptr;
    explicit operator bool() const { return create && destroy && encode && print; }
};

template <class Function> void find(void* library, const char* name, Function& function) {
    function = reinterpret_cast<Function>(::dlsym(library, name));
}

const Zint& zint() {
    static const Zint functions = [] {
        Zint found;
        void* library = ::dlopen(PEELBOOK_ZINT, RTLD_NOW | RTLD_LOCAL);  // for the life of the process
        if (!library) return found;
        find(library, "ZBarcode_Create", found.create);
        find(library, "ZBarcode_Delete", found.destroy);
        find(library, "ZBarcode_Encode", found.encode);
        find(library, "ZBarcode_Print", found.print);
        return found;
    }();
    return functions;
}

int number_of(Symbology symbology) {
    switch (symbology) {
        case Symbology::gs1_128:
            return BARCODE_GS1_128;
        case Symbology::data_matrix:
            return BARCODE_DATAMATRIX;
        case Symbology::qr:
            return BARCODE_QRCODE;
    }
    return 0;
}

std::string element_string(const std::vector<Gs1Element>& elements) {
    std::string text;
    for (const Gs1Element& element : elements) text += "[" + element.ai + "]" + element.value;
    return text;
}

Refusal not_drawn(const std::string& elements, const zint_symbol& symbol) {
    return {"symbol " + shown(elements),
            "elements that make a GS1 symbol; the library says: " + shown(symbol.errtxt),
            "correct the number that it names, in the plan or on the command line",
            {}};
}

// The library writes to a name of at most 255 bytes, whose ending says the format; so beside the file, then
// renamed.
class Draft {
  public:
    explicit Draft(const fs::path& file) : file_(file) {
        path_ = file.parent_path() / (".symbol." + std::to_string(::getpid()) + file.extension().string());
    }
    Draft(const Draft&) = delete;
    Draft& operator=(const Draft&) = delete;
    ~Draft() {
        std::error_code ignored;
        fs::remove(path_, ignored);
    }
    std::string path() const { return path_.string(); }
    void keep() const {
        std::error_code error;
        fs::rename(path_, file_, error);
        if (error) throw MachineFailed("cannot write '" + file_.string() + "': " + error.message() + "; choose another name");
    }

  private:
    fs::path file_, path_;
};

}  // namespace

std::string_view name_of(Symbology symbology) {
    switch (symbology) {
        case Symbology::gs1_128:
            return "gs1-128";
        case Symbology::data_matrix:
            return "datamatrix";
        case Symbology::qr:
            return "qr";
    }
    return "";
}

Check draw_symbol(const std::vector<Gs1Element>& elements, Symbology symbology, const fs::path& file) {
    const std::string kind = lowered(file.extension().string());
    if (kind != ".svg" && kind != ".png" && kind != ".gif" && kind != ".eps")
        return Refusal{
            "a symbol as '" + shown(file.filename().string()) + "'", "a file name that ends in .svg, .png, .gif or .eps", "name it so", {}};
    const Zint& library = zint();
    if (!library)
        return Refusal{
            "a symbol without libzint", "the library that draws it", "install it (Debian: apt-get install " PEELBOOK_ZINT_PACKAGE ")", {}};
    const Draft draft(file);
    const std::string path = draft.path();
    const std::unique_ptr<zint_symbol, decltype(library.destroy)> symbol(library.create(), library.destroy);
    if (!symbol) throw MachineFailed("not enough memory for a symbol");
    if (path.size() >= sizeof(symbol->outfile))
        return Refusal{"a symbol under '" + shown(path) + "'", "a path of at most 255 bytes", "draw it in a folder nearer the root", {}};
    path.copy(symbol->outfile, path.size());
    symbol->outfile[path.size()] = '\0';
    symbol->symbology = number_of(symbology);
    symbol->input_mode = GS1_MODE;
    symbol->output_options |= BARCODE_QUIET_ZONES;
    symbol->scale = 2.0F;  // 4 pixels a module
    const std::string text = element_string(elements);
    const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
    if (library.encode(symbol.get(), bytes, static_cast<int>(text.size())) != 0) return not_drawn(text, *symbol);
    const int code = library.print(symbol.get(), 0);
    if (code == ZINT_ERROR_FILE_ACCESS)
        throw MachineFailed("cannot write '" + file.string() + "': name a folder that exists and may be written to");
    if (code != 0) return not_drawn(text, *symbol);
    draft.keep();
    return {};
}

}  // namespace peelbook::output
