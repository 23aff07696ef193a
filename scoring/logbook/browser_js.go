package logbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"syscall/js"
)

// DataFolder names the browser's database.
func DataFolder() (string, error) { return "leastwatt", nil }

// HasLogbook is true: the browser's database is made when it is opened.
func HasLogbook(dir string) (string, bool, error) {
	if dir == "" {
		dir = "leastwatt"
	}
	return dir, true, nil
}

// OpenFolder opens the logbook of the browser's database of that name; ""
// means [DataFolder]. One tab holds it at a time.
func OpenFolder(dir string) (*Book, Report, error) {
	store, err := OpenFiles(dir)
	if err != nil {
		return nil, Report{}, err
	}
	book, report, err := Open(store)
	if err != nil {
		return nil, report, errors.Join(err, store.Close())
	}
	return book, report, nil
}

// OpenFiles is the store of [OpenFolder] in IndexedDB. Each Sync is one
// transaction with strict durability that adds what was appended since the
// last as one record; Replace is one that clears and adds. The bytes are held
// in memory too, since reading there must not wait.
//
// It waits for the browser and so must not be called from within a callback
// of JavaScript, where the browser waits for us.
func OpenFiles(name string) (Store, error) {
	if name == "" {
		name = "leastwatt"
	}
	b := &browser{name: name}
	if err := b.takeLock(); err != nil {
		return nil, err
	}
	if err := b.open(); err != nil {
		return nil, errors.Join(err, b.Close())
	}
	return b, nil
}

const (
	linesStore = "lines"
	asideStore = "damaged"
)

type browser struct {
	name   string
	db     js.Value
	unlock js.Value // resolves the promise that holds the lock
	kept   []byte   // committed and appended bytes
	synced int      // of kept
}

// wait blocks until one of two callbacks comes. good gives the result, bad
// the reason.
func wait(begin func(good, bad js.Func)) (js.Value, error) {
	type answer struct {
		value js.Value
		err   error
	}
	answers := make(chan answer, 2)
	first := func(args []js.Value) js.Value {
		if len(args) > 0 {
			return args[0]
		}
		return js.Undefined()
	}
	good := js.FuncOf(func(_ js.Value, args []js.Value) any {
		answers <- answer{value: first(args)}
		return nil
	})
	bad := js.FuncOf(func(_ js.Value, args []js.Value) any {
		answers <- answer{err: reason(first(args))}
		return nil
	})
	defer good.Release()
	defer bad.Release()
	begin(good, bad)
	a := <-answers
	return a.value, a.err
}

// reason turns an event or a failure of the browser into an error.
func reason(v js.Value) error {
	if v.Type() == js.TypeObject {
		if target := v.Get("target"); target.Type() == js.TypeObject && target.Get("error").Type() == js.TypeObject {
			v = target.Get("error")
		}
		if message := v.Get("message"); message.Type() == js.TypeString {
			return fmt.Errorf("the browser's database says: %s", message.String())
		}
	}
	return errors.New("the browser's database gave no reason")
}

// takeLock holds a lock of the browser until Close: a promise that is not yet
// kept. A browser without locks goes on without.
func (b *browser) takeLock() error {
	locks := js.Global().Get("navigator").Get("locks")
	if locks.Type() != js.TypeObject {
		return nil
	}
	options := js.Global().Get("Object").New()
	options.Set("ifAvailable", true)
	held := make(chan bool, 1)
	var executor js.Func
	granted := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if !args[0].Truthy() {
			held <- false
			return nil
		}
		executor = js.FuncOf(func(_ js.Value, args []js.Value) any {
			b.unlock = args[0]
			return nil
		})
		promise := js.Global().Get("Promise").New(executor)
		held <- true
		return promise
	})
	defer granted.Release()
	locks.Call("request", "leastwatt-logbook-"+b.name, options, granted)
	ok := <-held
	if ok {
		executor.Release()
		return nil
	}
	return &InUseError{b.name}
}

func (b *browser) open() error {
	factory := js.Global().Get("indexedDB")
	if factory.Type() != js.TypeObject {
		return errors.New("this browser has no database, so the logbook cannot be kept; a private window may be the cause")
	}
	upgrade := js.FuncOf(func(this js.Value, _ []js.Value) any {
		options := js.Global().Get("Object").New()
		options.Set("autoIncrement", true)
		db := this.Get("result")
		db.Call("createObjectStore", linesStore, options)
		db.Call("createObjectStore", asideStore, options)
		return nil
	})
	defer upgrade.Release()
	event, err := wait(func(good, bad js.Func) {
		request := factory.Call("open", b.name, 1)
		request.Set("onupgradeneeded", upgrade)
		request.Set("onsuccess", good)
		request.Set("onerror", bad)
		request.Set("onblocked", bad)
	})
	if err != nil {
		return err
	}
	b.db = event.Get("target").Get("result")
	event, err = wait(func(good, bad js.Func) {
		request := b.db.Call("transaction", linesStore).Call("objectStore", linesStore).Call("getAll")
		request.Set("onsuccess", good)
		request.Set("onerror", bad)
	})
	if err != nil {
		return err
	}
	records := event.Get("target").Get("result") // in the order of their keys
	for i := range records.Length() {
		b.kept = append(b.kept, fromArray(records.Index(i))...)
	}
	b.synced = len(b.kept)
	return nil
}

func fromArray(v js.Value) []byte {
	p := make([]byte, v.Length())
	js.CopyBytesToGo(p, v)
	return p
}

func toArray(p []byte) js.Value {
	v := js.Global().Get("Uint8Array").New(len(p))
	js.CopyBytesToJS(v, p)
	return v
}

// commit adds bytes as one record, after clearing when asked, and returns
// when the transaction is complete.
func (b *browser) commit(store string, clear bool, p []byte) (err error) {
	defer func() { // a closed database throws
		if r := recover(); r != nil {
			err = fmt.Errorf("the browser's database cannot be written: %v", r)
		}
	}()
	options := js.Global().Get("Object").New()
	options.Set("durability", "strict")
	_, err = wait(func(good, bad js.Func) {
		tx := b.db.Call("transaction", store, "readwrite", options)
		tx.Set("oncomplete", good)
		tx.Set("onabort", bad)
		lines := tx.Call("objectStore", store)
		if clear {
			lines.Call("clear")
		}
		if len(p) > 0 {
			lines.Call("add", toArray(p))
		}
	})
	return err
}

func (b *browser) ReadAt(p []byte, off int64) (int, error) {
	return bytes.NewReader(b.kept).ReadAt(p, off)
}

func (b *browser) Size() (int64, error) { return int64(len(b.kept)), nil }

func (b *browser) Append(p []byte) error { b.kept = append(b.kept, p...); return nil }

func (b *browser) Sync() error {
	if b.synced == len(b.kept) {
		return nil
	}
	if err := b.commit(linesStore, false, b.kept[b.synced:]); err != nil {
		return err
	}
	b.synced = len(b.kept)
	return nil
}

// Cut has only memory to cut after a failed Sync, for a transaction leaves
// all or nothing.
func (b *browser) Cut(size int64) error {
	if int(size) >= b.synced {
		b.kept = b.kept[:size]
		return nil
	}
	return b.put(bytes.Clone(b.kept[:size]))
}

func (b *browser) Replace(write func(io.Writer) error) error {
	var fresh bytes.Buffer
	if err := write(&fresh); err != nil {
		return err
	}
	return b.put(fresh.Bytes())
}

func (b *browser) put(all []byte) error {
	if err := b.commit(linesStore, true, all); err != nil {
		return err
	}
	b.kept, b.synced = all, len(all)
	return nil
}

func (b *browser) Aside(p []byte) error { return b.commit(asideStore, false, p) }

func (b *browser) Name() string      { return "logbook in this browser" }
func (b *browser) AsideName() string { return "this browser's database, under \"" + asideStore + "\"" }

func (b *browser) Close() error {
	if b.db.Type() == js.TypeObject {
		b.db.Call("close")
		b.db = js.Undefined()
	}
	if b.unlock.Type() == js.TypeFunction {
		b.unlock.Invoke()
		b.unlock = js.Undefined()
	}
	return nil
}
