;;; emacs --batch -f package-initialize -l INIT -l emacs-plugin.el: with an init.el as the page on Emacs says; BAND is the
;;; file, and knotwright is on the path.  -*- lexical-binding: t -*-
(require 'eglot)
(defconst patience 120
  "Seconds that an answer may take: far longer than ever seen, as the machine may be busy with something else.")
(setq jsonrpc-default-request-timeout patience eglot-sync-connect patience eglot-connect-timeout patience)

(defun need (holds what)
  (unless holds
    (princ (format "missing: %s\n" what))
    (kill-emacs 1))
  holds)

(defun page ()
  (with-current-buffer "*Knotwright*" (buffer-string)))

(switch-to-buffer (find-file-noselect (getenv "BAND")))
(need (eq major-mode 'knotwright-mode) "the mode of the file")

(let ((process (compile compile-command)))
  (with-current-buffer process
    (while (get-buffer-process process) (accept-process-output nil 0.05))
    (compilation-next-error 1 nil (point-min))
    (let ((message (compilation--message->loc (compilation-next-error 0))))
      (need (equal 9 (cadr message)) "the finding at its line"))))

;; The promise is mended, by hand, and its line indented by the mode.
(goto-char (point-min))
(re-search-forward "^  take left 1 (kelp): forward 3")
(replace-match "take left 1: forward 3")
(knotwright-indent-line)
(need (= 2 (current-indentation)) "two spaces in a block")

(apply #'eglot--connect (eglot--guess-contact))
(eglot--maybe-activate-editing-mode)
(need (eglot-managed-p) "the server")
(knotwright-words)
(need (string-match-p "kelp" (page)) "instructions")
(knotwright-thread)
(need (string-match-p "cm" (page)) "thread to cut")
(let (shown)
  (cl-letf (((symbol-function 'browse-url-of-file) (lambda (file) (setq shown file))))
    (knotwright-picture))
  (with-temp-buffer
    (insert-file-contents shown)
    (need (looking-at "<svg") "the picture"))
  (delete-file shown))
(let (shown)
  (cl-letf (((symbol-function 'browse-url) (lambda (address &rest _) (setq shown address))))
    (knotwright-preview))
  (need (string-prefix-p "http://127.0.0.1:" shown) "the address of the live picture")
  (with-current-buffer (need (url-retrieve-synchronously shown t t patience) "an answer from its address")
    (goto-char (point-min))
    (need (re-search-forward "^HTTP/1.1 200" nil t) "the live picture")
    (need (search-forward "id=\"canvas\"" nil t) "the page of the live picture")))
(set-buffer-modified-p nil)
(eglot-shutdown (eglot-current-server))

;; Markdown.
(let ((page (concat (file-name-sans-extension (getenv "BAND")) ".md")))
  (with-temp-file page
    (insert "# Pier\n\n```knot\npattern \"Pier\"\nlost\n```\n"))
  (switch-to-buffer (find-file-noselect page))
  (need (eq major-mode 'markdown-mode) "the mode of Markdown")
  (font-lock-ensure)
  (goto-char (point-min))
  (search-forward "pattern")
  (need (memq 'font-lock-keyword-face (ensure-list (get-text-property (1- (point)) 'face))) "colors within Markdown")
  (apply #'eglot--connect (eglot--guess-contact))
  (eglot--maybe-activate-editing-mode)
  (need (eglot-managed-p) "the server of Markdown")
  (flymake-mode 1)
  (let ((end (+ (float-time) patience)) found)
    (while (and (not found) (< (float-time) end))
      (flymake-start)
      (accept-process-output nil 0.05)
      (setq found (seq-find (lambda (one) (= 5 (line-number-at-pos (flymake-diagnostic-beg one)))) (flymake-diagnostics))))
    (need found "the finding within Markdown"))
  (eglot-shutdown (eglot-current-server)))
(princ "RESULT ok\n")
